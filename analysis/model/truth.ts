import type { SiteModel, TimeSpan } from "./site-model";
import { tankEmptiesAt, tankGasConstant } from "./site-model";

/** A swing that came out of the physics, measured on the pressure before noise, steps and sampling. */
export type TrueOscillation = TimeSpan & { readonly period: number; readonly peakToPeak: number };

/** A stretch of steady draw with the pump running: slope of a straight line through the pressure times its length, Pa. */
export type TrueDrift = TimeSpan & { readonly flow: number; readonly change: number };

/** All that is known of a simulated visit. SI, s from its start. */
export type SiteTruth = {
  readonly runs: readonly (TimeSpan & { readonly complete: boolean })[];
  readonly oscillations: readonly TrueOscillation[];
  readonly steady: readonly TrueDrift[];
  readonly gasConstant: number;
  /** Gauge; below 0 where water-logged. */
  readonly emptiesAt: number;
  readonly systemLeak: number;
  readonly backLeak: number;
  readonly lowestPressure: number; // at the tank, after the first minute
  readonly highestPressure: number;
  readonly volumes: {
    readonly pumped: number;
    readonly drawn: number;
    readonly leaked: number;
    readonly leakedBack: number;
    readonly storedBefore: number;
    readonly storedAfter: number;
  };
};

/** Runs shorter than a limit, of those not cut by an end of the record. */
export const shortRuns = (truth: SiteTruth, limit: number): number =>
  truth.runs.filter((run) => run.complete && run.to - run.from < limit).length;

/** Takes notes while the simulation runs. */
export type Witness = {
  watch(t: number, running: boolean, signal: number, tank: number, flow: number): void;
  finish(t: number): Pick<SiteTruth, "runs" | "oscillations" | "steady" | "lowestPressure" | "highestPressure">;
};

export function makeWitness(): Witness {
  const runs: (TimeSpan & { complete: boolean })[] = [];
  const swings = makeSwingWatch();
  const steady = makeSteadyWatch();
  let started = Number.NaN;
  let cut = false;
  let first = true;
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  return {
    watch: (t, running, signal, tank, flow) => {
      if (running !== !Number.isNaN(started)) {
        if (running) {
          started = t;
          cut = first;
        } else {
          runs.push({ from: started, to: t, complete: !cut });
          started = Number.NaN;
        }
        swings.cut();
      }
      first = false;
      if (running) swings.watch(t, signal);
      steady.watch(t, running, signal, flow);
      if (t < 60) return;
      if (tank < lowest) lowest = tank;
      if (tank > highest) highest = tank;
    },
    finish: (t) => {
      if (!Number.isNaN(started)) runs.push({ from: started, to: t, complete: false });
      swings.cut();
      steady.watch(t, false, 0, 0);
      return { runs, oscillations: swings.found, steady: steady.found, lowestPressure: lowest, highestPressure: highest };
    },
  };
}

const LEAST_SWING = 2000; // Pa peak to peak: smaller ones nobody acts on and sensors hardly show
const LEAST_HALF_WAVES = 8;

/** Turning points with a dead band; half waves of like length in a row make a swing. */
function makeSwingWatch() {
  const found: TrueOscillation[] = [];
  let turns: { t: number; p: number }[] = [];
  let direction = 0;
  let extreme = { t: 0, p: Number.NaN };
  const close = () => {
    collectSwings(turns, found);
    turns = [];
    direction = 0;
    extreme = { t: 0, p: Number.NaN };
  };
  const watch = (t: number, p: number) => {
    if (Number.isNaN(extreme.p)) extreme = { t, p };
    else if (direction === 0) {
      if (Math.abs(p - extreme.p) >= LEAST_SWING) {
        direction = Math.sign(p - extreme.p);
        extreme = { t, p };
      }
    } else if ((p - extreme.p) * direction >= 0) extreme = { t, p };
    else if (Math.abs(p - extreme.p) >= LEAST_SWING) {
      turns.push(extreme);
      direction = -direction;
      extreme = { t, p };
    }
  };
  return { found, watch, cut: close };
}

function collectSwings(turns: readonly { t: number; p: number }[], found: TrueOscillation[]): void {
  let from = 0;
  for (let i = 1; i < turns.length; i++) {
    const length = turns[i].t - turns[i - 1].t;
    const before = i >= 2 ? turns[i - 1].t - turns[i - 2].t : length;
    const alike = length < 2 * before && before < 2 * length;
    if (!alike) {
      closeSwing(turns, from, i - 1, found);
      from = i - 1;
    }
  }
  closeSwing(turns, from, turns.length - 1, found);
}

function closeSwing(turns: readonly { t: number; p: number }[], from: number, to: number, found: TrueOscillation[]): void {
  if (to - from < LEAST_HALF_WAVES) return;
  let heights = 0;
  for (let i = from + 1; i <= to; i++) heights += Math.abs(turns[i].p - turns[i - 1].p);
  const whole = to - from - ((to - from) % 2); // whole waves, so that a lopsided swing does not bias the period
  found.push({
    from: turns[from].t,
    to: turns[to].t,
    period: (2 * (turns[from + whole].t - turns[from].t)) / whole,
    peakToPeak: heights / (to - from),
  });
}

const SETTLE = 20; // s after a change of draw or a start that belong to it
const LEAST_STEADY = 60; // s
const SAME_FLOW = 0.06; // share by which a steady draw may move: open taps follow the pressure by half its share

function makeSteadyWatch() {
  const found: TrueDrift[] = [];
  let from = Number.NaN;
  let flowAtStart = 0;
  let n = 0;
  let [st, sp, stt, stp] = [0, 0, 0, 0];
  let last = 0;
  const close = () => {
    const length = last - from - SETTLE;
    const spread = n * stt - st * st;
    if (length >= LEAST_STEADY && spread > 0) {
      const slope = (n * stp - st * sp) / spread;
      found.push({ from: from + SETTLE, to: last, flow: flowAtStart, change: slope * length });
    }
    from = Number.NaN;
  };
  const watch = (t: number, running: boolean, signal: number, flow: number) => {
    const same = Math.abs(flow - flowAtStart) <= SAME_FLOW * flowAtStart;
    if (!Number.isNaN(from) && !(running && same && flow > 0)) close();
    if (Number.isNaN(from)) {
      if (!running || !(flow > 0)) return;
      from = t;
      flowAtStart = flow;
      n = 0;
      st = sp = stt = stp = 0;
    }
    last = t;
    if (t - from < SETTLE) return;
    const x = t - from;
    n++;
    st += x;
    sp += signal;
    stt += x * x;
    stp += x * signal;
  };
  return { found, watch };
}

/** Facts of the site that belong to the truth. */
export const siteFactsOfTruth = (site: SiteModel) => ({
  gasConstant: tankGasConstant(site),
  emptiesAt: tankEmptiesAt(site),
  systemLeak: site.systemLeak,
  backLeak: site.backLeak,
});
