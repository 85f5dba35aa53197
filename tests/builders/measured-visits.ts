import { type Random, seededRandom } from "../../analysis/numerics/random";
import type { VisitMeasures } from "../../shared/findings/comparison";

const HOUR = 3600;

export type WantedVisit = {
  readonly hours: number;
  readonly startsPerHour: number;
  /** Of the day, at which the record begins. */
  readonly fromHour?: number;
  readonly shortShare?: number;
  readonly heights?: readonly number[];
  readonly intervalS?: number;
};

/** Hours of a site with a daily rhythm and slow moods (log rate AR(1) 0.7, sd 0.4): truth is the mean rate. Demand follows the same rhythm. */
export function measuredVisit(
  { hours, startsPerHour, fromHour = 0, shortShare = 0, heights = [], intervalS = 1 }: WantedVisit,
  random: Random,
): VisitMeasures {
  let mood = 0.4 * random.normal();
  const starts: number[] = [];
  const drawn: number[] = [];
  for (let h = 0; h < hours; h++) {
    mood = 0.7 * mood + 0.4 * Math.sqrt(1 - 0.49) * random.normal();
    const rhythm = Math.exp(0.8 * Math.sin((2 * Math.PI * (fromHour + h - 8)) / 24) + mood - 0.08 - 0.17);
    starts.push(poisson(startsPerHour * rhythm, random));
    drawn.push(0.05 * rhythm);
  }
  const full = starts.map(() => HOUR);
  return {
    beginsS: fromHour * HOUR,
    blockS: HOUR,
    blocks: {
      pumpKnown: full,
      starts,
      shortCycles: starts.map((n) => Math.round(n * shortShare)),
      lookedAt: full,
      tracked: full,
      withinBand: full.map(() => 0.95 * HOUR),
      drawn,
    },
    slower: [],
    pumpIntervalS: intervalS,
    runsFromPressure: false,
    shortLimitS: 60,
    peakStartsPerHour: starts.reduce((a, b) => Math.max(a, b), 0),
    bandPa: 20000,
    intervalS,
    episodes: heights.map((heightPa, i) => ({ fromS: i * 2 * HOUR, toS: i * 2 * HOUR + 600, periodS: 12, heightPa })),
    driftsPa: [],
    days: null,
    cycles: null,
    limits: {
      "starts-per-hour": 6,
      "short-cycles-per-day": 0,
      "oscillating-share": null,
      "oscillation-height": 20000,
      "drift-at-steady-flow": 34000,
      "share-within-band": null,
    },
  };
}

/** The same on every call. */
export const steadyVisit = (wanted: WantedVisit): VisitMeasures => measuredVisit(wanted, seededRandom(3));

function poisson(mean: number, random: Random): number {
  let n = 0;
  for (let p = random.next(); p > Math.exp(-mean); p *= random.next()) n++;
  return n;
}
