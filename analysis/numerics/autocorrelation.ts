import { fourierPlan, powerOfTwoAtLeast } from "./fast-fourier";
import { mean } from "./moments";
import type { Numbers } from "./order-statistics";

/**
 * Autocorrelation r_k = sum x_i x_{i+k} / sum x_i^2 of the values less their mean (biased estimator), k = 0 .. maxLag, by FFT, O(n log n).
 * A missing value counts as the mean: it adds nothing to any lag.
 * @returns shape [maxLag + 1], NaN where nothing varies
 */
export function autocorrelation(values: Numbers, maxLag: number): Float64Array {
  const n = values.length;
  const centre = mean(values);
  const centred = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const d = values[i] - centre;
    centred[i] = d - d === 0 ? d : 0;
  }
  const plan = fourierPlan(powerOfTwoAtLeast(n + Math.min(maxLag, n) + 1));
  const power = powerOf(plan.forwardReal(centred));
  return normalised(plan.inverseEven(power), Math.min(maxLag, n - 1));
}

/** Squared magnitude of interleaved bins, shape [2m] -> [m]. */
export function powerOf(bins: Float64Array): Float64Array {
  const power = new Float64Array(bins.length / 2);
  for (let k = 0; k < power.length; k++) power[k] = bins[2 * k] ** 2 + bins[2 * k + 1] ** 2;
  return power;
}

function normalised(sums: Float64Array, maxLag: number): Float64Array {
  const r = new Float64Array(maxLag + 1);
  const scale = sums[0] > 0 ? 1 / sums[0] : Number.NaN;
  for (let k = 0; k <= maxLag; k++) r[k] = sums[k] * scale;
  return r;
}

/**
 * Variance of a mean over that of independent values with the same spread, from the residuals' own memory: (1 + r) / (1 - r) with the
 * correlation of neighbours r, corrected for its bias: (1 + 4 r) / n where a mean was taken off, (2 + 4 r) / n for a line. At least 1.
 * Source: Bayley & Hammersley 1946; bias of r after Kendall 1954.
 */
export function varianceInflation(lagOne: number, n: number, fitted: "mean" | "line" = "mean"): number {
  if (!Number.isFinite(lagOne)) return 1;
  const r = Math.min(lagOne + ((fitted === "line" ? 2 : 1) + 4 * lagOne) / n, 0.98);
  return Math.max(1, (1 + r) / (1 - r));
}
