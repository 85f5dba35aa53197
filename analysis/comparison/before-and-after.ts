import {
  type CannotCompareId,
  type ComparedMeasure,
  type Comparison,
  MEASURE_IDS,
  type MeasureId,
  type VisitMeasures,
} from "../../shared/findings/comparison";
import type { Measured } from "../../shared/units/measured";
import { drawBlocks, runLength } from "../numerics/block-bootstrap";
import { studentQuantile } from "../numerics/distributions";
import { median } from "../numerics/order-statistics";
import { type Random, seededRandom } from "../numerics/random";
import { type DemandMatch, matchDemand, NO_MATCH } from "./demand-match";
import { overallVerdict, verdictOf } from "./verdict";

const RESAMPLES = 600;
/** Samples a period needs to be seen. */
const SAMPLES_PER_PERIOD = 4;
const DAY = 86400;
const HOUR = 3600;

type Ratio = { readonly top: readonly number[]; readonly bottom: readonly number[]; readonly per: number; readonly counted: boolean };
type Estimate = { readonly value: number; readonly sd: number; readonly degrees: number };

/**
 * Two visits of one site on the same measures, with block-bootstrap intervals, weighed to a like demand where both logged flow.
 * The limits are those of the later visit. Nothing the slower logger could not have seen is held against the faster one.
 */
export function compareVisits(before: VisitMeasures, after: VisitMeasures, seed = 1): Comparison {
  const random = seededRandom(seed);
  const match = matchDemand(before.blocks.drawn, after.blocks.drawn) ?? NO_MATCH;
  const hidden = hiddenBelow(before, after);
  const measures = MEASURE_IDS.map((id) => compareMeasure(id, before, after, match, hidden ?? 0, random));
  return { measures, overall: overallVerdict(measures), matchedShare: match.share, hiddenBelowPeriodS: hidden };
}

function hiddenBelow(a: VisitMeasures, b: VisitMeasures): number | null {
  if (a.intervalS === null || b.intervalS === null) return null;
  const [fast, slow] = [Math.min(a.intervalS, b.intervalS), Math.max(a.intervalS, b.intervalS)];
  return slow > 1.5 * fast ? SAMPLES_PER_PERIOD * slow : null;
}

function compareMeasure(
  id: MeasureId,
  before: VisitMeasures,
  after: VisitMeasures,
  match: DemandMatch,
  hidden: number,
  random: Random,
): ComparedMeasure {
  const limit = after.limits[id];
  const refused = (because: CannotCompareId): ComparedMeasure => ({
    id,
    before: null,
    after: null,
    difference: null,
    limit,
    verdict: "cannot-compare",
    because,
  });
  const missing = whyNot(id, before) ?? whyNot(id, after);
  if (missing !== null) return refused(missing);
  const [a, b] = [estimate(id, before, match.before, hidden, random), estimate(id, after, match.after, hidden, random)];
  const difference = interval(
    { value: b.value - a.value, sd: Math.hypot(a.sd, b.sd), degrees: Math.min(a.degrees, b.degrees) },
    Number.NEGATIVE_INFINITY,
  );
  const shown = interval(b, 0);
  return { id, before: interval(a, 0), after: shown, difference, limit, verdict: verdictOf(id, shown, difference, limit), because: null };
}

const sum = (xs: readonly number[]) => xs.reduce((total, x) => total + x, 0);

/** Least time of evidence for a rate, s. */
const LEAST_EVIDENCE = 1800;

function whyNot(id: MeasureId, { blocks, driftsPa }: VisitMeasures): CannotCompareId | null {
  switch (id) {
    case "starts-per-hour":
    case "short-cycles-per-day":
      return sum(blocks.pumpKnown) === 0 ? "no-pump-state" : sum(blocks.pumpKnown) < LEAST_EVIDENCE ? "too-short" : null;
    case "oscillating-share":
    case "oscillation-height":
      return sum(blocks.lookedAt) === 0 ? "sampling-hides-it" : sum(blocks.lookedAt) < LEAST_EVIDENCE ? "too-short" : null;
    case "share-within-band":
      return sum(blocks.tracked) === 0 ? "no-set-pressure" : sum(blocks.tracked) < LEAST_EVIDENCE ? "too-short" : null;
    case "drift-at-steady-flow":
      return driftsPa.length === 0 ? "no-steady-draw" : null;
  }
}

function estimate(id: MeasureId, visit: VisitMeasures, weights: readonly number[] | null, hidden: number, random: Random): Estimate {
  const { blocks } = visit;
  switch (id) {
    case "starts-per-hour":
      return estimateRatio({ top: blocks.starts, bottom: blocks.pumpKnown, per: HOUR, counted: true }, visit.blockS, weights, random);
    case "short-cycles-per-day":
      return estimateRatio({ top: blocks.shortCycles, bottom: blocks.pumpKnown, per: DAY, counted: true }, visit.blockS, weights, random);
    case "oscillating-share":
      return estimateRatio({ top: blocks.oscillating, bottom: blocks.lookedAt, per: 1, counted: false }, visit.blockS, weights, random);
    case "share-within-band":
      return estimateRatio({ top: blocks.withinBand, bottom: blocks.tracked, per: 1, counted: false }, visit.blockS, weights, random);
    case "oscillation-height":
      return estimateMedian(
        visit.episodes.filter((e) => e.periodS >= hidden).map((e) => e.heightPa),
        random,
      );
    case "drift-at-steady-flow":
      return estimateMedian(visit.driftsPa.map(Math.abs), random);
  }
}

/** A rate or share over blocks; `weights` bring the blocks to the demand of both visits together. */
function estimateRatio({ top, bottom, per, counted }: Ratio, blockS: number, weights: readonly number[] | null, random: Random): Estimate {
  const n = top.length;
  const length = runLength(n, blockS);
  const ratioOf = (blocks: ArrayLike<number> | null): number => {
    let [up, down] = [0, 0];
    for (let k = 0; k < n; k++) {
      const i = blocks === null ? k : blocks[k];
      const w = weights === null ? 1 : weights[i];
      up += w * top[i];
      down += w * bottom[i];
    }
    return down > 0 ? (per * up) / down : Number.NaN;
  };
  const sd = spreadOf(() => ratioOf(drawBlocks(n, length, random)));
  // A count of none or few has no spread to resample; Poisson's is the least that may be claimed.
  const total = sum(bottom);
  const floor = counted ? (per * Math.sqrt(Math.max(1, sum(top)))) / total : per / Math.max(1, total / blockS) / Math.sqrt(12);
  const degrees = Math.max(2, Math.floor(n / length) - 1);
  return { value: ratioOf(null), sd: Math.max(sd, sum(top) === 0 || counted ? floor : 0), degrees };
}

/** Median over events; nothing seen counts as none. */
function estimateMedian(values: readonly number[], random: Random): Estimate {
  if (values.length === 0) return { value: 0, sd: 0, degrees: 2 };
  const pick = () => median(values.map(() => values[random.below(values.length)]));
  return { value: median(values), sd: values.length < 3 ? median(values) / 2 : spreadOf(pick), degrees: Math.max(2, values.length - 1) };
}

function spreadOf(draw: () => number): number {
  let [count, mean, squares] = [0, 0, 0];
  for (let i = 0; i < RESAMPLES; i++) {
    const x = draw();
    if (Number.isNaN(x)) continue;
    count++;
    const step = x - mean;
    mean += step / count;
    squares += step * (x - mean);
  }
  return count < 2 ? 0 : Math.sqrt(squares / (count - 1));
}

/** 95 % interval by Student's t on the number of independent blocks: the plain percentile is too narrow on short records. */
function interval({ value, sd, degrees }: Estimate, floor: number): Measured {
  const reach = sd * studentQuantile(0.975, degrees);
  return { value, low: Math.max(floor, value - reach), high: value + reach };
}
