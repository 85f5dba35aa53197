import { studentQuantile } from "./distributions";
import { median, medianAbsoluteDeviation, NORMAL_PER_MAD } from "./order-statistics";

export type Estimate = { readonly value: number; readonly variance: number };
export type PooledMean = {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Standard deviation of the true values between the estimates. */
  readonly between: number;
  /** Indexes of the estimates that were believed. */
  readonly kept: readonly number[];
};

const FAR_OFF = 4; // robust standard deviations from the median
const LEAST_TO_JUDGE = 5; // with fewer nobody is the odd one out

/**
 * Mean of independent estimates that differ by more than their own errors say: random effects (DerSimonian & Laird 1986), interval by Student's t with
 * the observed scatter (Hartung & Knapp 2001), never under what the estimates' own errors give. Estimates far from all others are left out first.
 * @returns null with fewer than two estimates
 * Worked: values 1, 2, 3 with equal variances of 1 make no claim of scatter between: 2 +- 4.30 * sqrt(1/3).
 */
export function pooledMean(estimates: readonly Estimate[], level = 0.95): PooledMean | null {
  const kept = believed(estimates);
  if (kept.length < 2) return null;
  const used = kept.map((i) => estimates[i]);
  const between = Math.max(0, scatterBetween(used));
  const weights = used.map(({ variance }) => 1 / (variance + between));
  const total = weights.reduce((a, b) => a + b, 0);
  const value = used.reduce((a, { value: v }, i) => a + weights[i] * v, 0) / total;
  const observed = used.reduce((a, { value: v }, i) => a + weights[i] * (v - value) ** 2, 0) / (used.length - 1);
  const reach = studentQuantile((1 + level) / 2, used.length - 1) * Math.sqrt(Math.max(1, observed) / total);
  return { value, low: value - reach, high: value + reach, between: Math.sqrt(between), kept };
}

function believed(estimates: readonly Estimate[]): number[] {
  const all = estimates.map((_, i) => i).filter((i) => Number.isFinite(estimates[i].value) && estimates[i].variance > 0);
  if (all.length < LEAST_TO_JUDGE) return all;
  const values = all.map((i) => estimates[i].value);
  const centre = median(values);
  const spread = medianAbsoluteDeviation(values, centre) * NORMAL_PER_MAD;
  return all.filter((i) => Math.abs(estimates[i].value - centre) <= FAR_OFF * Math.hypot(spread, Math.sqrt(estimates[i].variance)));
}

/** Variance between the true values by the moments of Cochran's Q; below 0 where the estimates agree better than their errors say. */
function scatterBetween(used: readonly Estimate[]): number {
  let w1 = 0;
  let w2 = 0;
  let wv = 0;
  for (const { value, variance } of used) {
    w1 += 1 / variance;
    w2 += 1 / variance ** 2;
    wv += value / variance;
  }
  const centre = wv / w1;
  const q = used.reduce((a, { value, variance }) => a + (value - centre) ** 2 / variance, 0);
  return (q - (used.length - 1)) / (w1 - w2 / w1);
}
