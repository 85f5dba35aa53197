import { type DemandEvent, demandOf } from "../../../analysis/model/demand";
import { householdDraws, pulsedDraw, steadyDraw, swingingDraw } from "../../../analysis/model/draws";
import { type SimulatedVisit, simulateSite } from "../../../analysis/model/simulate-site";
import type { LoggedChannel, SiteModel, TimeSpan } from "../../../analysis/model/site-model";
import { calmSensor, soundSite, speedFor, weakened } from "../../../analysis/model/sound-site";
import { visitRecord } from "../../../analysis/model/visit-record";
import { type Random, seededRandom } from "../../../analysis/numerics/random";
import type { CauseId } from "../../../shared/findings/cause";
import type { LogRecord } from "../../../shared/record/log-record";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";

/** A simulated site with one fault put into it (or none): the record a logger would bring home, and the facts an engineer would know. */
export type CauseCase = { readonly truth: CauseId; readonly seed: number; readonly record: LogRecord; readonly facts: SiteFacts };

const GPM = 3.785411784e-3 / 60; // m3/s
const HOUR = 3600;

type Draft = { site: SiteModel; events: DemandEvent[]; startHour: number; duration: number; random: Random };
/** What the engineer believes: the site as it was commissioned. */
type Commissioned = { readonly set: number; readonly rated: number; readonly volume: number; readonly precharge: number };

const between = (random: Random, low: number, high: number) => low + (high - low) * random.next();
const pick = <T>(random: Random, all: readonly T[]): T => all[Math.floor(random.next() * all.length)];
const chance = (random: Random, p: number) => random.next() < p;

/** A few stretches that cover a share of the visit. */
function stretches({ random, duration }: Draft, count: number, share: number): TimeSpan[] {
  const slot = duration / count;
  return Array.from({ length: count }, (_, i) => {
    const length = slot * share * between(random, 0.6, 1.4);
    const from = i * slot + between(random, 0, Math.max(0, slot - length));
    return { from, to: from + length };
  });
}

const CHANNELS: readonly (readonly LoggedChannel[])[] = [
  ["pressure", "flow", "speed"],
  ["pressure", "flow", "speed"],
  ["pressure", "flow", "speed"],
  ["pressure", "flow", "running"],
  ["pressure", "flow", "current"],
  ["pressure", "flow"],
  ["pressure", "speed"],
  ["pressure", "running"],
  ["pressure"],
];

function soundDraft(random: Random, as: Commissioned): Draft {
  const site = soundSite({
    setPressure: as.set,
    ratedFlow: as.rated,
    ratedRise: as.set * between(random, 1.08, 1.4),
    tankVolume: as.volume,
    precharge: as.precharge,
    pipeLength: between(random, 0.5, 2.5),
    bore: Math.sqrt((4 * as.rated) / (Math.PI * between(random, 1.2, 2.2))),
  });
  const duration = pick(random, [6, 12, 24]) * HOUR;
  const startHour = Math.floor(between(random, 0, 24));
  const homes = Math.max(1, Math.round((as.rated / GPM / 4) * between(random, 0.5, 1.2)));
  const events = [...householdDraws(homes, duration, Math.floor(random.next() * 1e9), startHour)];
  const steadies = 1 + Math.floor(random.next() * 3);
  for (let i = 0; i < steadies; i++) {
    const from = between(random, 0, duration * 0.9);
    events.push(...steadyDraw(from, from + between(random, 600, 2400), as.rated * between(random, 0.15, 0.5)));
  }
  const logger = { ...site.logger, interval: pick(random, [1, 1, 1, 2, 5]), channels: pick(random, CHANNELS) };
  return { site: { ...site, logger, control: soundDrive(random, site) }, events, startHour, duration, random };
}

/** A drive set calmly for its own delays, which differ from make to make; it sleeps after a while of little flow. */
function soundDrive(random: Random, site: SiteModel): SiteModel["control"] {
  if (site.control.kind !== "variable-speed") throw new Error("not a drive");
  const [filter, motorLag, interval] = [between(random, 0.1, 1.5), between(random, 0.2, 1.2), between(random, 0.1, 0.5)];
  const delay = filter + motorLag + interval / 2 + 0.3;
  return {
    ...site.control,
    filter,
    motorLag,
    interval,
    gain: (site.control.gain * 0.9 * between(random, 0.5, 1.2)) / delay,
    integralTime: 6 * Math.max(1, delay),
    rampUp: between(random, 2, 10),
    rampDown: between(random, 2, 10),
    sleepDelay: between(random, 20, 60),
    boost: between(random, 10e3, 40e3),
    restartPressure: site.control.setPressure - between(random, 4, 8) * PSI,
  };
}

type Fault = (draft: Draft, as: Commissioned) => void;
const change = (draft: Draft, part: Partial<SiteModel>) => {
  draft.site = { ...draft.site, ...part };
};
const changeDrive = (draft: Draft, part: Readonly<Record<string, unknown>>) =>
  change(draft, { control: { ...draft.site.control, ...part } as SiteModel["control"] });
const driveOf = ({ site }: Draft) => {
  if (site.control.kind !== "variable-speed") throw new Error("not a drive");
  return site.control;
};

/** How each fault is put in; broad on purpose, so that many are hard to see. */
const FAULTS: Readonly<Record<CauseId, Fault>> = {
  healthy: () => {},
  "tank-too-small": (d) => change(d, { tank: { ...d.site.tank, volume: d.site.tank.volume * between(d.random, 0.04, 0.3) } }),
  "precharge-low": (d, as) => change(d, { tank: { ...d.site.tank, precharge: as.set * between(d.random, 0.02, 0.4) } }),
  "precharge-high": (d, as) => change(d, { tank: { ...d.site.tank, precharge: as.set + between(d.random, -4, 10) * PSI } }),
  "tank-waterlogged": (d) => change(d, { tank: { ...d.site.tank, gasLeft: between(d.random, 0.01, 0.1) } }),
  "sensor-far-from-tank": (d) => {
    const length = between(d.random, 10, 60);
    const pipe = { ...d.site.pipe, length, resistance: (d.site.pipe.resistance * length) / d.site.pipe.length };
    change(d, { pipe, sensor: { ...calmSensor, fromTank: length } });
    changeDrive(d, { gain: driveOf(d).gain * between(d.random, 1, 5) });
  },
  "sensor-in-turbulence": (d) => change(d, { sensor: { ...d.site.sensor, turbulence: between(d.random, 1, 6) } }),
  "sensor-port-plugged": (d) => change(d, { sensor: { ...d.site.sensor, lag: between(d.random, 4, 40) } }),
  "sensor-frozen-or-stuck": (d) => {
    const stuck = stretches(d, 1 + Math.floor(d.random.next() * 3), between(d.random, 0.1, 0.5));
    const sensor = { ...d.site.sensor, stuck };
    if (chance(d.random, 0.5)) change(d, { sensor });
    else change(d, { logger: { ...d.site.logger, ownSensor: sensor } });
  },
  "sensor-scaling-wrong": (d) => {
    const gain = chance(d.random, 0.5) ? between(d.random, 0.5, 0.8) : between(d.random, 1.25, 2);
    const sensor = { ...d.site.sensor, scale: { gain, offset: 0 } };
    if (chance(d.random, 0.7)) change(d, { logger: { ...d.site.logger, ownSensor: sensor } });
    else change(d, { sensor });
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
    const period = Math.exp(between(d.random, Math.log(20), Math.log(400)));
    const from = between(d.random, 0, 0.3) * d.duration;
    const to = from + between(d.random, 0.3, 0.7) * d.duration;
    const flow = as.rated * between(d.random, 0.2, 0.6);
    d.events.push(
      ...(chance(d.random, 0.5)
        ? pulsedDraw(from, to, period, period * between(d.random, 0.2, 0.6), flow)
        : swingingDraw(from, to, Math.max(30, period), 0.1 * flow, flow)),
    );
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
    if (chance(d.random, 0.5)) changeDrive(d, { dryRunStop: { after: between(d.random, 10, 60), retryAfter: between(d.random, 60, 600) } });
  },
  "pump-turning-backwards-or-weak": (d, as) => {
    const reach = (as.set / d.site.pump.shutoff) * between(d.random, 0.65, 1.0);
    change(d, { pump: weakened(d.site, reach).pump });
  },
  "undersized-pump-or-overdraw": (d, as) => {
    for (const span of stretches(d, 1 + Math.floor(d.random.next() * 4), between(d.random, 0.1, 0.5)))
      d.events.push(...steadyDraw(span.from, span.to, as.rated * between(d.random, 1.15, 1.8)));
  },
};

/** What is told of the site: as commissioned, with some facts missing; what the fault changed is known only where an engineer would see it. */
function factsOf(draft: Draft, truth: CauseId, as: Commissioned): SiteFacts {
  const { random, site } = draft;
  const known: Record<string, string> = { pump: "variable-speed" };
  const tell = (name: string, text: string, p: number) => {
    if (chance(random, p)) known[name] = text;
  };
  tell("setPressure", `${(as.set / PSI).toFixed(1)} psi`, 0.95);
  tell("pumpRatedFlow", `${(as.rated / GPM).toFixed(1)} gpm`, 0.85);
  tell("tankVolume", `${(site.tank.volume * 1000).toFixed(1)} L`, 0.85);
  const asRead = (truth === "precharge-low" || truth === "precharge-high") && chance(random, 0.25) ? site.tank.precharge : as.precharge;
  tell("precharge", `${(asRead / PSI).toFixed(1)} psi`, 0.75);
  tell("sensorToTank", `${site.sensor.fromTank + 1} m`, 0.75);
  tell("pipeInsideDiameter", `${(site.pipe.bore * 1000).toFixed(0)} mm`, 0.7);
  tell("tankRatedPressure", "125 psi", 0.7);
  tell("flowMeter", site.logger.meter.place, 0.5);
  return readSiteFacts(known, "site.json");
}

/**
 * Whether the fault does anything: a hot loop or a far sensor that never swings, or a slow loop that never lets go, is no fault.
 * Looked up in the truth, not in the log.
 */
function shows(truth: CauseId, { visit, as }: { readonly visit: SimulatedVisit; readonly as: Commissioned }): boolean {
  const { oscillations, runs, lowestPressure } = visit.truth;
  const total = (spans: readonly TimeSpan[]) => spans.reduce((sum, s) => sum + s.to - s.from, 0);
  if (truth === "loop-too-aggressive" || truth === "sensor-far-from-tank")
    return total(oscillations.filter((o) => o.peakToPeak > PSI)) > 0.03 * total(runs);
  return truth !== "loop-too-slow" || lowestPressure < 0.8 * as.set;
}

function visitOf(truth: CauseId, seed: number) {
  const random = seededRandom(seed);
  const set = between(random, 40, 75) * PSI;
  const rated = Math.exp(between(random, Math.log(15), Math.log(70))) * GPM;
  const volume = 0.2 * rated * 60 * between(random, 0.95, 1.8);
  const as: Commissioned = { set, rated, volume, precharge: set - between(random, 15, 20) * PSI };
  const draft = soundDraft(random, as);
  FAULTS[truth](draft, as);
  const facts = factsOf(draft, truth, as);
  return { draft, as, facts, visit: simulateSite(draft.site, demandOf(draft.events, as.set), draft.duration, seed) };
}

const MOST_TRIES = 25;

/** The visit behind a case, with what was put in: the first of a few tries in which the fault does something. Same seed, same site. */
export function causeVisit(truth: CauseId, seed: number) {
  let made = visitOf(truth, seed);
  for (let i = 1; i < MOST_TRIES && !shows(truth, made); i++) made = visitOf(truth, seed + i * 10_000_000);
  return made;
}

/** A site with this fault, everything else by chance, as its record and facts. */
export function causeCase(truth: CauseId, seed: number): CauseCase {
  const { visit, facts } = causeVisit(truth, seed);
  return { truth, seed, record: visitRecord(visit, `${truth}-${seed}`), facts };
}
