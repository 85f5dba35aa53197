import { mean as meanOf, sampleVariance } from "simple-statistics";
import { finiteValues, type Numbers } from "./order-statistics";

/** The library throws on nothing and lets NaN through in silence: it is given the values present. It reads any array; its types ask for a plain one. */
const present = (values: Numbers) => finiteValues(values) as unknown as readonly number[];

/** Mean of the values present, by compensated summation; NaN where there is none. */
export function mean(values: Numbers): number {
  const kept = present(values);
  return kept.length === 0 ? Number.NaN : meanOf(kept);
}

/** Sample variance (n - 1) by two passes; NaN with fewer than two values. A one-pass sum of squares loses all digits on a large level. */
export function variance(values: Numbers): number {
  const kept = present(values);
  return kept.length < 2 ? Number.NaN : sampleVariance(kept);
}

export const standardDeviation = (values: Numbers): number => Math.sqrt(variance(values));

/**
 * Correlation of neighbours, sum (x_i - m)(x_{i+1} - m) / sum (x_i - m)^2 (the definition of the NIST reference sets). Pairs with a missing
 * value are left out. NaN where nothing varies.
 */
export function lagOneCorrelation(values: Numbers): number {
  const centre = mean(values);
  let products = 0;
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    const d = values[i] - centre;
    if (d - d !== 0) continue;
    squares += d * d;
    const next = values[i + 1] - centre;
    if (next - next === 0) products += d * next;
  }
  return squares > 0 ? products / squares : Number.NaN;
}
