import { finiteValues, NORMAL_PER_MAD, type Numbers, quantileInPlace } from "./order-statistics";

/**
 * Indexes of values further than `limit` robust standard deviations from the median of their neighbourhood (shrinking at the ends).
 * A neighbourhood of equal values has spread 0: anything else in it is an outlier. Missing values are neither judged nor counted.
 * O(n * half). Source: Hampel 1974; Pearson 2002.
 */
export function hampelOutliers(values: Numbers, half = 5, limit = 3): number[] {
  const found: number[] = [];
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i])) continue;
    const near = finiteValues(values, Math.max(0, i - half), Math.min(values.length, i + half + 1));
    const centre = quantileInPlace(near, 0.5);
    for (let k = 0; k < near.length; k++) near[k] = Math.abs(near[k] - centre);
    if (Math.abs(values[i] - centre) > limit * NORMAL_PER_MAD * quantileInPlace(near, 0.5)) found.push(i);
  }
  return found;
}
