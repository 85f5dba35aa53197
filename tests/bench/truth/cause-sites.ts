import { type DemandEvent, demandOf } from "../../../analysis/model/demand";
import { pulsedDraw, steadyDraw, swingingDraw } from "../../../analysis/model/draws";
import { type SimulatedVisit, simulateSite } from "../../../analysis/model/simulate-site";
import { type DriveModel, type SiteModel, type TimeSpan, within } from "../../../analysis/model/site-model";
import { fullFlow, speedFor, weakened } from "../../../analysis/model/sound-site";
import { visitRecord } from "../../../analysis/model/visit-record";
import { seededRandom } from "../../../analysis/numerics/random";
import type { CauseId } from "../../../shared/findings/cause";
import type { LogRecord } from "../../../shared/record/log-record";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { between, type Commissioned, chance, commissioned, type Draft, GPM, soundDraft, soundDraws, spread, stretches } from "./site-draft";

/** A simulated site with one fault put into it (or none): the record a logger would bring home, and the facts an engineer would know. */
export type CauseCase = { readonly truth: CauseId; readonly seed: number; readonly record: LogRecord; readonly facts: SiteFacts };

type Fault = (draft: Draft, as: Commissioned) => void;
const change = (draft: Draft, part: Partial<SiteModel>) => {
  draft.site = { ...draft.site, ...part };
};
const changeDrive = (draft: Draft, part: Partial<DriveModel>) => change(draft, { control: { ...driveOf(draft), ...part } });
const driveOf = ({ site }: Draft) => {
  if (site.control.kind !== "variable-speed") throw new Error("not a drive");
  return site.control;
};
/** Where the reading goes wrong: at the drive's own sensor, which the logger reads too, or at the logger's only. */
const changeSensor = (draft: Draft, part: Partial<SiteModel["sensor"]>, ownShare: number) => {
  const sensor = { ...draft.site.sensor, ...part };
  if (chance(draft.random, ownShare)) change(draft, { logger: { ...draft.site.logger, ownSensor: sensor } });
  else change(draft, { sensor });
};

/** Faults that only a drive can have. */
const OF_A_DRIVE: readonly CauseId[] = ["loop-too-aggressive", "loop-too-slow", "sleep-settings-hunting"];

/** How each fault is put in; broad on purpose, so that many are hard to see. */
const FAULTS: Readonly<Record<CauseId, Fault>> = {
  healthy: () => {},
  "tank-too-small": (d) => change(d, { tank: { ...d.site.tank, volume: d.site.tank.volume * between(d.random, 0.04, 0.3) } }),
  "precharge-low": (d, as) => {
    const follows = as.cutIn ?? as.set;
    change(d, { tank: { ...d.site.tank, precharge: follows * between(d.random, 0.02, 0.4) } });
  },
  "precharge-high": (d, as) => {
    // mostly short of the stop pressure, so that the tank gives a little and is then empty; at a drive up to some psi over the set pressure, where it gives nothing
    const [from, to] = as.cutIn === null ? [as.set - 10 * PSI, as.set + 4 * PSI] : [as.cutIn + 3 * PSI, as.cutIn + 17 * PSI];
    change(d, { tank: { ...d.site.tank, precharge: between(d.random, from, to) } });
  },
  "tank-waterlogged": (d) => change(d, { tank: { ...d.site.tank, gasLeft: between(d.random, 0.01, 0.1) } }),
  "sensor-far-from-tank": (d) => {
    const length = between(d.random, 10, 60);
    const pipe = { ...d.site.pipe, length, resistance: (d.site.pipe.resistance * length) / d.site.pipe.length };
    change(d, { pipe, sensor: { ...d.site.sensor, fromTank: length } });
    if (d.site.control.kind === "variable-speed") changeDrive(d, { gain: driveOf(d).gain * between(d.random, 1, 5) });
  },
  "sensor-in-turbulence": (d) => changeSensor(d, { turbulence: between(d.random, 1, 6) }, 0),
  "sensor-port-plugged": (d) => changeSensor(d, { lag: between(d.random, 4, 40) }, 0.3),
  "sensor-frozen-or-stuck": (d) => {
    const stuck = stretches(d, 1 + Math.floor(d.random.next() * 3), between(d.random, 0.1, 0.5));
    changeSensor(d, { stuck, ...(chance(d.random, 0.5) ? { noise: 0 } : {}) }, 0.5);
    const cold = chance(d.random, 0.5) ? between(d.random, 262, 273) : d.site.logger.temperature.mean;
    const channels = chance(d.random, 0.3) ? [...d.site.logger.channels, "temperature" as const] : d.site.logger.channels;
    change(d, { logger: { ...d.site.logger, channels, temperature: { ...d.site.logger.temperature, mean: cold } } });
  },
  "sensor-scaling-wrong": (d) => {
    const gain = chance(d.random, 0.5) ? between(d.random, 0.5, 0.8) : between(d.random, 1.25, 2);
    changeSensor(d, { scale: { gain, offset: 0 } }, 0.7);
  },
  "loop-too-aggressive": (d) =>
    changeDrive(d, {
      gain: driveOf(d).gain * between(d.random, 3, 15),
      integralTime: driveOf(d).integralTime * between(d.random, 0.05, 0.3),
    }),
  "loop-too-slow": (d) =>
    changeDrive(d, {
      gain: driveOf(d).gain * between(d.random, 0.02, 0.12),
      integralTime: driveOf(d).integralTime * between(d.random, 1, 6),
    }),
  "leak-or-check-valve": (d, as) => {
    const leak = as.rated * between(d.random, 0.004, 0.05);
    change(d, chance(d.random, 0.5) ? { systemLeak: leak } : { backLeak: leak });
  },
  "demand-is-periodic": (d, as) => {
    const period = spread(d.random, 20, 400);
    const from = between(d.random, 0, 0.3) * d.duration;
    const to = from + between(d.random, 0.3, 0.7) * d.duration;
    const flow = as.rated * between(d.random, 0.2, 0.6);
    const pulses = chance(d.random, 0.5);
    const draws = pulses ? pulsedDraw(from, to, period, period * between(d.random, 0.2, 0.6), flow) : null;
    d.events = d.events.concat(draws ?? swingingDraw(from, to, Math.max(30, period), 0.1 * flow, flow));
  },
  "sleep-settings-hunting": (d, as) => {
    changeDrive(d, {
      sleepSpeed: speedFor(d.site, as.set, between(d.random, 0.12, 0.35) * as.rated),
      sleepDelay: between(d.random, 0.5, 4),
      boost: between(d.random, 0, 8e3),
      boostTime: between(d.random, 0, 5),
      restartPressure: as.set - between(d.random, 0.7, 2.5) * PSI,
    });
    for (const span of stretches(d, 3, 0.5)) d.events.push(...steadyDraw(span.from, span.to, as.rated * between(d.random, 0.02, 0.1)));
  },
  "loss-of-prime": (d) => {
    const withoutPrime = stretches(d, 1 + Math.floor(d.random.next() * 5), between(d.random, 0.02, 0.2));
    change(d, { pump: { ...d.site.pump, withoutPrime } });
    if (d.site.control.kind === "variable-speed" && chance(d.random, 0.5))
      changeDrive(d, { dryRunStop: { after: between(d.random, 10, 60), retryAfter: between(d.random, 60, 600) } });
  },
  "pump-turning-backwards-or-weak": (d, as) => {
    const reach = ((as.set - d.site.suctionPressure) / d.site.pump.shutoff) * between(d.random, 0.65, 1.0);
    change(d, { pump: weakened(d.site, reach).pump });
  },
  "undersized-pump-or-overdraw": (d, as) => {
    // open outlets: what draws a set flow has no pressure to draw it with once the pump gives less, and would take a sound pump's pressure to nought
    d.exponent = 0.5;
    const most = Math.max(as.rated, fullFlow(d.site, as.set));
    for (const span of stretches(d, 1 + Math.floor(d.random.next() * 4), between(d.random, 0.1, 0.5)))
      d.events.push(...steadyDraw(span.from, span.to, most * between(d.random, 1.15, 2.5)));
  },
};

/** What is told of the site: as commissioned, with some facts missing or read with an error; what the fault changed only where an engineer would see it. */
function factsOf(draft: Draft, truth: CauseId, as: Commissioned): SiteFacts {
  const { random, site } = draft;
  const known: Record<string, string> = chance(random, 0.9) ? { pump: as.cutIn === null ? "variable-speed" : "fixed-speed" } : {};
  const tell = (name: string, text: string, p: number) => {
    if (chance(random, p)) known[name] = text;
  };
  const psi = (pascal: number, error = 0) => `${(pascal / PSI + error * random.normal()).toFixed(1)} psi`;
  if (as.cutIn === null) tell("setPressure", psi(as.set), 0.95);
  else {
    tell("cutIn", psi(as.cutIn), 0.9);
    tell("cutOut", psi(as.set), 0.9);
  }
  tell("pumpRatedFlow", `${((as.rated / GPM) * (1 + 0.04 * random.normal())).toFixed(1)} gpm`, 0.85);
  tell("tankVolume", `${(site.tank.volume * 1000 * (1 + 0.04 * random.normal())).toFixed(1)} L`, 0.85);
  const asRead = (truth === "precharge-low" || truth === "precharge-high") && chance(random, 0.25) ? site.tank.precharge : as.precharge;
  tell("precharge", psi(Math.max(PSI, asRead), 0.7), 0.75);
  tell("sensorToTank", `${(site.sensor.fromTank + 1).toFixed(1)} m`, 0.75);
  tell("pipeInsideDiameter", `${(site.pipe.bore * 1000).toFixed(0)} mm`, 0.7);
  tell("tankRatedPressure", "150 psi", 0.7);
  tell("flowMeter", site.logger.meter.place, 0.5);
  return readSiteFacts(known, "site.json");
}

/** A run so short is the surge's, s: no tank fills in it. */
const CHATTER = 5;
/** Share of switches far from their tank that are drawn again. */
const MOST_SWITCHES = 0.7;

/**
 * Whether the fault does anything: a hot loop or a far sensor that never swings, a slow loop that never lets go, a pump without prime while
 * nothing is drawn, a sensor stuck at rest. Looked up in the truth, not in the log.
 */
function shows(truth: CauseId, { draft, visit, as }: Made): boolean {
  const { oscillations, runs, lowestPressure } = visit.truth;
  const total = (spans: readonly TimeSpan[]) => spans.reduce((sum, s) => sum + s.to - s.from, 0);
  const ran = (spans: readonly TimeSpan[]) => runs.some((run) => spans.some((s) => run.from < s.to - 60 && run.to > s.from + 60));
  const swings = () => total(oscillations.filter((o) => o.peakToPeak > PSI)) > 0.03 * total(runs);
  switch (truth) {
    case "sensor-far-from-tank":
      if (as.cutIn !== null) return runs.filter((run) => run.to - run.from < CHATTER).length >= 10;
      return swings();
    case "loop-too-aggressive":
      return swings();
    case "loop-too-slow":
      return lowestPressure < 0.8 * as.set;
    case "loss-of-prime":
      return ran(draft.site.pump.withoutPrime) && lowestPressure < 0.6 * (as.cutIn ?? as.set);
    case "sensor-frozen-or-stuck": {
      const { stuck } = draft.site.logger.ownSensor ?? draft.site.sensor;
      return draft.events.some((e) => within(stuck, e.from) && within(stuck, e.from + 30) && e.flow > 0.05 * as.rated) && ran(stuck);
    }
    default:
      return true;
  }
}

/** `sound`: the site before its fault. */
export type Made = {
  readonly draft: Draft;
  readonly as: Commissioned;
  readonly sound: SiteModel;
  readonly facts: SiteFacts;
  readonly visit: SimulatedVisit;
};

function visitOf(truth: CauseId, seed: number): Made | null {
  const random = seededRandom(seed);
  const as = commissioned(random);
  if (as.cutIn !== null && OF_A_DRIVE.includes(truth)) return null;
  // a switch far from its tank chatters nearly always, a drive swings seldom: else most of these sites would be switches
  if (as.cutIn !== null && truth === "sensor-far-from-tank" && chance(random, MOST_SWITCHES)) return null;
  const draft = soundDraft(random, as);
  const sound = draft.site;
  FAULTS[truth](draft, as);
  const facts = factsOf(draft, truth, as);
  return { draft, as, sound, facts, visit: simulateSite(draft.site, demandFor(draft.events, as, draft.exponent), draft.duration, seed) };
}

/** The same site without its fault on another day: other draws of the same kind, other noise, what is logged with the fault logged too. */
export function soundVisit({ draft, as, sound }: Made, seed: number): SimulatedVisit {
  const site = { ...sound, logger: { ...sound.logger, channels: draft.site.logger.channels } };
  const events = soundDraws(seededRandom(seed), as, draft.duration, draft.startHour);
  return simulateSite(site, demandFor(events, as, draft.exponent), draft.duration, seed);
}

const demandFor = (events: readonly DemandEvent[], as: Commissioned, exponent: 0 | 0.5) => demandOf(events, as.cutIn ?? as.set, exponent);

const MOST_TRIES = 40;

/** The visit behind a case, with what was put in: the first of some tries in which the fault does something. Same seed, same site. */
export function causeVisit(truth: CauseId, seed: number): Made {
  let made: Made | null = null;
  for (let i = 0; i < MOST_TRIES && (made === null || !shows(truth, made)); i++) made = visitOf(truth, seed + i * 10_000_000) ?? made;
  if (made === null) throw new RangeError(`causeVisit: ${truth} ${seed}`);
  return made;
}

/** A site with this fault, everything else by chance, as its record and facts. */
export function causeCase(truth: CauseId, seed: number): CauseCase {
  const { visit, facts } = causeVisit(truth, seed);
  return { truth, seed, record: visitRecord(visit, `${truth}-${seed}`), facts };
}
