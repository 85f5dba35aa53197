import { atOneGo } from "../numerics/at-one-go";
import { seededRandom } from "../numerics/random";
import { makeControl } from "./control";
import type { Demand } from "./demand";
import { makeLogger, type Samples } from "./logger";
import { type Motor, turnMotor } from "./motor";
import { commitRest, makePlant, type PlantState, type RestStep, restPressure, type StepOrder, startState, stepPlant } from "./plant";
import { makeSensor, type Sensor } from "./sensor";
import { aimedPressure, type SiteModel, within } from "./site-model";
import { makeWitness, type SiteTruth, siteFactsOfTruth } from "./truth";

export type SimulatedVisit = { readonly site: SiteModel; readonly samples: Samples; readonly truth: SiteTruth };

export type SimulationOptions = {
  /** Longest step while the pump runs, s. Half of it moves periods from 1.2 s on by under 1 %. */
  readonly step?: number;
  /** Longest step while it runs and nothing moves by more than 300 Pa/s, s; without it such stretches are not told apart. */
  readonly quietStep?: number;
  /** Longest step while it rests, s. */
  readonly restStep?: number;
  /** Tank pressure at the start, gauge; else the pressure aimed at. */
  readonly startPressure?: number;
  /** Speed share at the start; above 0 the pump is in the middle of a run. */
  readonly startSpeed?: number;
};

const STEP = 0.05;
const REST_STEP = 1;
const NEAR_WAKING = 3e3; // Pa above the restart pressure from where steps are short again
const STANDSTILL = 0.01; // speed share below which a coasting motor stands
const STILL = 1e-7; // m3/s in the pipe that counts as none
const QUIET = 300; // Pa/s: a swing of 2 s that stays under it is 0.6 kPa high, one of 20 s 2 kPa
const LASTS = 2; // s: a swing stands still for a moment at each of its turns
const FOLLOWING = 0.01; // speed share between what is asked and what is: a motor that hardly changes its speed

const REST_EVERY = 4 * 3600; // s of the visit, some ten milliseconds of work

/**
 * A visit to a simulated site: what happens, and what the logger keeps of it. Same inputs, same visit.
 * Fixed step while the pump runs; while it rests, steps up to the next sample, change of draw or the moment before it wakes.
 * @param duration s  @throws RangeError where it is not above 0
 */
export const simulateSite = (
  site: SiteModel,
  demand: Demand,
  duration: number,
  seed: number,
  options: SimulationOptions = {},
): SimulatedVisit => atOneGo(simulateInSteps(site, demand, duration, seed, options));

/** The same with a rest now and then, so that whoever waits for it can look up and stop it half-way. */
export function* simulateInSteps(
  site: SiteModel,
  demand: Demand,
  duration: number,
  seed: number,
  options: SimulationOptions = {},
): Generator<undefined, SimulatedVisit> {
  if (!(duration > 0 && Number.isFinite(duration))) throw new RangeError(`simulateSite: duration ${duration} s`);
  const run = prepare(site, demand, duration, seed, options);
  while (run.t < duration - 1e-9) {
    goOn(run, demand, duration, Math.min(duration, run.t + REST_EVERY));
    yield;
  }
  return { site, samples: run.logger.finish(), truth: finishTruth(run) };
}

function goOn(run: Run, demand: Demand, duration: number, until: number): void {
  while (run.t < until - 1e-9) {
    if (!restOnce(run, demand, duration)) moveOnce(run, demand);
    if (run.t >= run.logger.due() - 1e-6) takeSamples(run);
  }
}

function prepare(site: SiteModel, demand: Demand, duration: number, seed: number, options: SimulationOptions) {
  const plant = makePlant(site);
  const control = makeControl(site);
  const start = options.startPressure ?? aimedPressure(site);
  const state = startState(plant, start);
  const own = site.logger.ownSensor;
  const sensor = makeSensor(site.sensor, site, start, seededRandom(seed * 4 + 1));
  const startSpeed = options.startSpeed ?? 0;
  state.speed = startSpeed;
  control.begin(startSpeed);
  const pace = (steps: number): Pace => {
    const step = control.interval / steps;
    return { steps, step };
  };
  const stepsPerAct = Math.max(1, Math.round(control.interval / (options.step ?? STEP)));
  const brisk = pace(stepsPerAct);
  const quiet =
    options.quietStep === undefined ? brisk : pace(Math.min(stepsPerAct, Math.ceil(control.interval / options.quietStep - 1e-9)));
  const run = {
    site,
    plant,
    control,
    state,
    sensor,
    logged: own === null ? sensor : makeSensor(own, site, start, seededRandom(seed * 4 + 2)),
    logger: makeLogger(site, duration, seed * 4 + 3),
    witness: makeWitness(),
    rest: { pressure: 0, stored: 0, heat: 1, draw: 0, leak: 0, back: 0 } satisfies RestStep,
    restStep: options.restStep ?? REST_STEP,
    brisk,
    quiet,
    pace: brisk,
    quietFor: 0, // s
    tankAtAct: start,
    manifoldAtAct: start,
    order: { flow: 0, exponent: demand.exponent, reference: demand.referencePressure, drive: 0, dt: brisk.step } satisfies StepOrder,
    untilAct: 0,
    asked: startSpeed,
    motor: { ramped: startSpeed, speed: startSpeed, mean: startSpeed } satisfies Motor,
    running: startSpeed > 0,
    t: 0,
    cursor: 0,
    pumped: 0,
    drawn: 0,
    leaked: 0,
    leakedBack: 0,
    storedBefore: state.stored + site.manifoldCompliance * state.manifold,
    runningAbove: site.control.kind === "variable-speed" ? 0.5 * site.control.leastSpeed : 0.2,
  };
  seekDraw(run, demand);
  takeSamples(run);
  return run;
}

type Run = ReturnType<typeof prepare>;

/** How the time from one act of the control to the next is walked. */
type Pace = { readonly steps: number; readonly step: number };

/** Moves the cursor to the draw that holds now. */
function seekDraw(run: { t: number; cursor: number }, demand: Demand): void {
  while (run.cursor + 1 < demand.times.length && demand.times[run.cursor + 1] <= run.t + 1e-9) run.cursor++;
}

const nextChange = (run: Run, demand: Demand) =>
  run.cursor + 1 < demand.times.length ? demand.times[run.cursor + 1] : Number.POSITIVE_INFINITY;

/** A long step with the pump at rest. @returns false, and nothing done, where things are moving or about to */
function restOnce(run: Run, demand: Demand, duration: number): boolean {
  const { state, control, sensor } = run;
  if (state.speed > 0 || run.asked > 0 || !control.resting() || state.pumpFlow > 0) return false;
  const flow = demand.flows[run.cursor];
  if (Math.abs(state.pipeFlow) > STILL + state.back || (flow > 0 && !run.plant.drawAtTank)) return false;
  if (state.tank < NEAR_WAKING) return false;
  const until = Math.min(run.logger.due(), nextChange(run, demand), control.wakesBy(), duration, run.t + run.restStep);
  const length = until - run.t;
  if (!(length > run.brisk.step)) return false;
  const pressure = restPressure(run.plant, state, flow, demand.exponent, demand.referencePressure, length, run.rest);
  if (sensor.foresee(pressure, length, until) < control.wakesAt + NEAR_WAKING) return false;
  commitRest(state, run.rest);
  advance(run, length, demand);
  run.untilAct = 0;
  watch(run, length);
  return true;
}

/** One short step with everything in motion. */
function moveOnce(run: Run, demand: Demand): void {
  const { state, control, site } = run;
  if (run.untilAct <= 0) {
    const reading = run.sensor.read(run.t);
    run.asked = control.act(reading, state.speed, run.t);
    run.pace = paceOf(run);
    run.order.dt = run.pace.step;
    run.untilAct = run.pace.steps;
    watch(run, control.interval);
  }
  run.untilAct--;
  const { step } = run.pace;
  const { motor } = run;
  turnMotor(motor, run.asked, control, step);
  if (motor.ramped === 0 && motor.speed < STANDSTILL) motor.speed = 0;
  state.speed = motor.speed;
  const primed = site.pump.withoutPrime.length > 0 && within(site.pump.withoutPrime, run.t) ? 0 : 1;
  const flow = demand.flows[run.cursor];
  const { order } = run;
  order.flow = flow;
  order.drive = motor.mean * motor.mean * primed;
  stepPlant(run.plant, state, order);
  advance(run, step, demand);
}

/** Long steps where neither tank nor manifold moves to speak of, and the motor has what is asked of it, for a while already. */
function paceOf(run: Run): Pace {
  const { state, quiet, brisk } = run;
  if (quiet === brisk) return brisk;
  const most = QUIET * run.control.interval;
  const still = Math.abs(state.tank - run.tankAtAct) < most && Math.abs(state.manifold - run.manifoldAtAct) < most;
  run.tankAtAct = state.tank;
  run.manifoldAtAct = state.manifold;
  run.quietFor = still && Math.abs(run.asked - state.speed) < FOLLOWING ? run.quietFor + run.control.interval : 0;
  return run.quietFor > LASTS ? quiet : brisk;
}

function advance(run: Run, elapsed: number, demand: Demand): void {
  const { state } = run;
  run.t += elapsed;
  run.pumped += state.pumpFlow * elapsed;
  run.drawn += state.draw * elapsed;
  run.leaked += state.leak * elapsed;
  run.leakedBack += state.back * elapsed;
  see(run.sensor, state, elapsed);
  if (run.logged !== run.sensor) see(run.logged, state, elapsed);
  run.running = state.speed > run.runningAbove;
  if (run.t >= nextChange(run, demand) - 1e-9) seekDraw(run, demand);
}

const see = (sensor: Sensor, state: PlantState, elapsed: number) =>
  sensor.update(state.tank + sensor.place * (state.manifold - state.tank), elapsed);

function watch(run: Run, elapsed: number): void {
  const { state } = run;
  const passing = Math.max(Math.abs(state.pipeFlow), state.draw);
  run.sensor.shake(passing, elapsed);
  if (run.logged !== run.sensor) run.logged.shake(passing, elapsed);
  run.witness.watch(run.t, run.running, run.logged.read(run.t), state.tank, state.draw);
}

function takeSamples(run: Run): void {
  while (run.logger.due() <= run.t + 1e-6) run.logger.sample(run.state, run.logged.read(run.t), run.running);
}

const finishTruth = (run: Run): SiteTruth => ({
  ...run.witness.finish(run.t),
  ...siteFactsOfTruth(run.site),
  volumes: {
    pumped: run.pumped,
    drawn: run.drawn,
    leaked: run.leaked,
    leakedBack: run.leakedBack,
    storedBefore: run.storedBefore,
    storedAfter: run.state.stored + run.site.manifoldCompliance * run.state.manifold,
  },
});
