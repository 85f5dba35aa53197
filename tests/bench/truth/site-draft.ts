import type { DemandEvent } from "../../../analysis/model/demand";
import { householdDraws, pulsedDraw, steadyDraw } from "../../../analysis/model/draws";
import type { DriveModel, LoggedChannel, SensorModel, SiteModel, TimeSpan } from "../../../analysis/model/site-model";
import { calmSensor, soundSite, speedFor, withSwitch } from "../../../analysis/model/sound-site";
import type { Random } from "../../../analysis/numerics/random";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";

/** A sound site on the way to its fault. */
export type Draft = {
  site: SiteModel;
  events: DemandEvent[];
  exponent: 0 | 0.5;
  startHour: number;
  duration: number;
  random: Random;
};
/** What the engineer believes: the site as it was commissioned. With a switch `set` is cut-out. SI, gauge. */
export type Commissioned = {
  readonly set: number;
  readonly rated: number;
  readonly volume: number;
  readonly precharge: number;
  /** Null with a drive. */
  readonly cutIn: number | null;
};

export const GPM = 3.785411784e-3 / 60; // m3/s
const HOUR = 3600;
const AIR = 101325;

export const between = (random: Random, low: number, high: number) => low + (high - low) * random.next();
/** Evenly spread in the logarithm. */
export const spread = (random: Random, low: number, high: number) => Math.exp(between(random, Math.log(low), Math.log(high)));
export const pick = <T>(random: Random, all: readonly T[]): T => all[Math.floor(random.next() * all.length)];
export const chance = (random: Random, p: number) => random.next() < p;

/** A few stretches that cover a share of the visit. */
export function stretches({ random, duration }: Draft, count: number, share: number): TimeSpan[] {
  const slot = duration / count;
  return Array.from({ length: count }, (_, i) => {
    const length = slot * share * between(random, 0.6, 1.4);
    const from = i * slot + between(random, 0, Math.max(0, slot - length));
    return { from, to: from + length };
  });
}

/** What is logged, the fuller mixes more often: they are what an engineer takes along. */
const CHANNELS: readonly (readonly LoggedChannel[])[] = [
  ["pressure", "flow", "speed"],
  ["pressure", "flow", "speed"],
  ["pressure", "flow", "speed"],
  ["pressure", "flow", "running"],
  ["pressure", "flow", "current"],
  ["pressure", "flow", "power"],
  ["pressure", "flow"],
  ["pressure", "speed"],
  ["pressure", "running"],
  ["pressure"],
];
const SWITCHED_CHANNELS: readonly (readonly LoggedChannel[])[] = [
  ["pressure", "flow", "running"],
  ["pressure", "flow", "running"],
  ["pressure", "flow", "current"],
  ["pressure", "flow"],
  ["pressure", "running"],
  ["pressure", "power"],
  ["pressure"],
];

/** Set pressure 2 to 8 bar, tanks of 8 to 500 L: what is met from a cottage to a block of flats. */
export function commissioned(random: Random): Commissioned {
  const set = spread(random, 2e5, 8e5);
  const rated = spread(random, 8, 130) * GPM;
  const least = 8e-3;
  if (chance(random, 0.75)) {
    const volume = Math.min(0.5, Math.max(least, 0.2 * rated * 60 * spread(random, 0.95, 2.5)));
    return { set, rated, volume, precharge: set - Math.min(0.35 * set, between(random, 15, 20) * PSI), cutIn: null };
  }
  const cutIn = set - Math.min(between(random, 15, 25) * PSI, 0.45 * set);
  const precharge = cutIn - 2 * PSI;
  // A minute of the pump's flow between stop and start, V = K (1/p_in - 1/p_out).
  const each = (precharge + AIR) * (1 / (cutIn + AIR) - 1 / (set + AIR));
  const small = Math.min(rated, (0.5 * each) / 60); // a tank of 500 L bounds the pump it can serve
  return { set, rated: small, volume: Math.max(least, ((small * 60) / each) * between(random, 0.95, 1.6)), precharge, cutIn };
}

/** Structure varies beside size: steepness of the pump, suction from a main, softness of pipes, heat of the gas, sensor, meter, logger, draws. */
export function soundDraft(random: Random, as: Commissioned): Draft {
  const rise = (as.cutIn === null ? as.set : (as.cutIn + as.set) / 2) * between(random, as.cutIn === null ? 1.08 : 1.1, 1.4);
  const outline = soundSite({
    setPressure: as.set * 0.99,
    ratedFlow: as.rated,
    ratedRise: rise,
    tankVolume: as.volume,
    precharge: as.precharge,
    pipeLength: between(random, 0.3, 2.5),
    bore: Math.sqrt((4 * as.rated) / (Math.PI * between(random, 1, 2.2))),
  });
  const shutoff = Math.max(rise * between(random, 1.15, 1.7), as.set * 1.15);
  const suction = chance(random, 0.2) ? between(random, 0.05, 0.3) * as.set : 0;
  const sensor = soundSensor(random, as.set);
  const base: SiteModel = {
    ...outline,
    suctionPressure: suction,
    pump: { ...outline.pump, shutoff: shutoff - suction, steepness: (shutoff - rise) / as.rated ** 2 },
    manifoldCompliance: spread(random, 2e-10, 5e-9),
    tank: {
      ...outline.tank,
      stiffness: spread(random, 2e-10, 5e-9),
      heatTime: chance(random, 0.5) ? 0 : spread(random, 20, 300),
    },
    drawAt: chance(random, 0.8) ? "tank" : "manifold",
    sensor,
    logger: soundLogger(random, as, outline.logger),
  };
  const site = as.cutIn === null ? { ...base, control: soundDrive(random, base, as.set) } : withSwitch(base, as.cutIn, as.set);
  const duration = (site.logger.interval < 1 ? pick(random, [3, 6]) : pick(random, [6, 12, 24, 48])) * HOUR;
  const startHour = Math.floor(between(random, 0, 24));
  const events = soundDraws(random, as, duration, startHour);
  return { site, events, exponent: chance(random, 0.75) ? 0.5 : 0, startHour, duration, random };
}

function soundSensor(random: Random, set: number): SensorModel {
  const high = Math.max(6e5, 1e5 * Math.ceil((1.5 * set) / 1e5));
  return {
    ...calmSensor,
    lag: spread(random, 0.05, 1),
    noise: chance(random, 0.15) ? 0 : spread(random, 30, 1000),
    step: pick(random, [high / 65536, high / 4096, high / 4096, 689, 1000, 3447]),
    range: { low: chance(random, 0.5) ? 0 : -1e5, high },
  };
}

function soundLogger(random: Random, as: Commissioned, plain: SiteModel["logger"]): SiteModel["logger"] {
  return {
    ...plain,
    interval: pick(random, [0.2, 0.5, 1, 1, 1, 1, 2, 5, 10, 30, 60]),
    jitter: chance(random, 0.15) ? 0.05 : 0,
    missing: chance(random, 0.15) ? 0.003 : 0,
    channels: pick(random, as.cutIn === null ? CHANNELS : SWITCHED_CHANNELS),
    meter: {
      place: chance(random, 0.75) ? "after-tank" : "before-tank",
      noise: spread(random, 0.002, 0.03),
      step: as.rated * spread(random, 1e-4, 5e-3),
      leastFlow: as.rated * spread(random, 1e-4, 5e-3),
      seesLeak: true,
    },
    temperature: { mean: between(random, 268, 298), swing: between(random, 2, 8) },
  };
}

/** Homes, a work place with pulses, or a garden that draws for long; most sites have some of each. */
export function soundDraws(random: Random, as: Commissioned, duration: number, startHour: number): DemandEvent[] {
  const homes = Math.max(1, Math.round((as.rated / GPM / 4) * between(random, 0.3, 1.2)));
  const events = [...householdDraws(homes, duration, Math.floor(random.next() * 1e9), startHour, between(random, 25, 80))];
  const steadies = Math.floor(random.next() * 4);
  for (let i = 0; i < steadies; i++) {
    const from = between(random, 0, duration * 0.9);
    events.push(...steadyDraw(from, from + between(random, 300, 3600), as.rated * between(random, 0.1, 0.6)));
  }
  if (chance(random, 0.15)) {
    const from = between(random, 0, 0.8) * duration;
    const period = spread(random, 900, 3600);
    events.push(...pulsedDraw(from, from + 0.2 * duration, period, 0.2 * period, as.rated * between(random, 0.1, 0.4)));
  }
  return events;
}

/** A drive set calmly for its own delays, which differ from make to make; it sleeps after a while of little flow, with or without a boost. */
function soundDrive(random: Random, base: SiteModel, set: number): DriveModel {
  const { control } = soundSite({
    setPressure: set,
    ratedFlow: base.pump.ratedFlow,
    ratedRise: base.pump.shutoff * 0.8 + base.suctionPressure,
    tankVolume: base.tank.volume,
    precharge: base.tank.precharge,
    pipeLength: base.pipe.length,
    bore: base.pipe.bore,
  });
  if (control.kind !== "variable-speed") throw new Error("not a drive");
  const [filter, motorLag, interval] = [spread(random, 0.05, 1.5), spread(random, 0.1, 1.2), spread(random, 0.05, 1)];
  const delay = filter + motorLag + interval / 2 + base.sensor.lag + 0.3;
  const sleepFlow = between(random, 0.02, 0.08) * base.pump.ratedFlow;
  return {
    ...control,
    filter,
    motorLag,
    interval,
    gain: (control.gain * 0.9 * between(random, 0.4, 1.2)) / delay,
    integralTime: between(random, 4, 8) * Math.max(1, delay),
    leastSpeed: between(random, 0.2, 0.5),
    rampUp: spread(random, 1.5, 12),
    rampDown: spread(random, 1.5, 12),
    sleepSpeed: Math.min(0.97, speedFor(base, set, sleepFlow)),
    sleepDelay: spread(random, 12, 90),
    boost: chance(random, 0.3) ? 0 : between(random, 10e3, 40e3),
    restartPressure: set - Math.min(between(random, 4, 12) * PSI, 0.2 * set),
    restartDelay: spread(random, 0.1, 2),
  };
}
