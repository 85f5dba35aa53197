import type { Measured } from "../../shared/units/measured";
import { drawBlocks, runLength } from "../numerics/block-bootstrap";
import { normalQuantile, studentQuantile } from "../numerics/distributions";
import { median } from "../numerics/order-statistics";
import type { Random } from "../numerics/random";

const RESAMPLES = 600; // enough for the 2.5 and 97.5 % quantiles to settle within a tenth of the interval

/** A value with the spread of its error and how many independent pieces that spread rests on. */
export type Estimate = { readonly value: number; readonly sd: number; readonly degrees: number };
/** Sums over blocks of what is counted and of what it is counted in; `per` scales the quotient; `counted`: the top holds counts. */
export type Ratio = {
  readonly top: readonly number[];
  readonly bottom: readonly number[];
  readonly per: number;
  readonly counted: boolean;
};

export const sum = (xs: readonly number[]): number => xs.reduce((total, x) => total + x, 0);

/** A rate or share over blocks by block bootstrap; `weights` bring the blocks to the demand of both visits together. */
export function estimateRatio(
  { top, bottom, per, counted }: Ratio,
  blockS: number,
  weights: readonly number[] | null,
  random: Random,
): Estimate {
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
  // A count of none or few has no spread to resample; Poisson's is the least that may be claimed. What weighs nothing is no evidence.
  const weighing = (xs: readonly number[]) => (weights === null ? xs : xs.filter((_, i) => weights[i] > 0));
  const [count, total] = [sum(weighing(top)), sum(weighing(bottom))];
  const floor = counted ? (per * Math.sqrt(Math.max(1, count))) / total : per / Math.max(1, total / blockS) / Math.sqrt(12);
  const degrees = Math.max(2, Math.floor(weighing(top).length / length) - 1);
  return { value: ratioOf(null), sd: Math.max(sd, count === 0 || counted ? floor : 0), degrees };
}

/** Median over events; nothing seen counts as none. */
export function estimateMedian(values: readonly number[], random: Random): Estimate {
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

/**
 * How far a day's use lies from the mean day, as a share of it: supply is planned for a highest day of the year of 1.5 to 2 times the mean
 * (common practice, no source), and the highest of 365 normal days lies 2.9 standard deviations up: at the least 0.5 / 2.9.
 */
const USE_SPREAD = 0.17;

/** Standard deviation of a value by days of another use. @param moves how much of the value goes with the use  @param days of record, at least one */
export const otherUse = (moves: number, days: number): number => (USE_SPREAD * moves) / Math.sqrt(Math.max(1, days));

/** After less before. @param known standard deviation of what the blocks do not show */
export function differenceOf(before: Estimate, after: Estimate, known = 0): Measured {
  const sd = Math.hypot(before.sd, after.sd);
  const degrees = Math.min(before.degrees, after.degrees);
  return intervalOf({ value: after.value - before.value, sd, degrees }, DIFFERENCE, known);
}

/** What a value can be at all: a share is none or all at most, a count or a size not less than none, a difference anything. */
export type Bounds = { readonly low: number; readonly high: number };
export const SHARE: Bounds = { low: 0, high: 1 };
export const SIZE: Bounds = { low: 0, high: Number.POSITIVE_INFINITY };
const DIFFERENCE: Bounds = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

/** 95 % interval by Student's t on the number of independent blocks: the plain percentile is too narrow on short records. */
export function intervalOf({ value, sd, degrees }: Estimate, { low, high }: Bounds, known = 0): Measured {
  const reach = Math.hypot(sd * studentQuantile(0.975, degrees), known * normalQuantile(0.975));
  return { value, low: Math.max(low, value - reach), high: Math.min(high, value + reach) };
}
