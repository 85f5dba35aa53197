import type { Numbers } from "./order-statistics";

/** Mean of the values present, corrected by a second pass; NaN where there is none. */
export function mean(values: Numbers): number {
  let sum = 0;
  let n = 0;
  for (let i = 0; i < values.length; i++) {
    const v = values[i];
    if (v - v === 0) {
      sum += v;
      n++;
    }
  }
  const first = sum / n;
  let rest = 0;
  for (let i = 0; i < values.length; i++) {
    const v = values[i];
    if (v - v === 0) rest += v - first;
  }
  return first + rest / n;
}

/** Sample variance (n - 1) by two passes; NaN with fewer than two values. A one-pass sum of squares loses all digits on a large level. */
export function variance(values: Numbers): number {
  const centre = mean(values);
  let squares = 0;
  let rest = 0;
  let n = 0;
  for (let i = 0; i < values.length; i++) {
    const d = values[i] - centre;
    if (d - d === 0) {
      squares += d * d;
      rest += d;
      n++;
    }
  }
  return n < 2 ? Number.NaN : (squares - (rest * rest) / n) / (n - 1);
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
