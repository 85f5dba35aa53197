import { median } from "./order-statistics";

/** Takes the mean away, in place. */
export function removeMean(values: Float64Array): void {
  let sum = 0;
  for (const v of values) sum += v;
  const mean = sum / values.length;
  for (let i = 0; i < values.length; i++) values[i] -= mean;
}

/** Takes the straight line of least squares away, in place. Evenly spaced values, none missing. */
export function removeLine(values: Float64Array, n = values.length): void {
  const middle = (n - 1) / 2;
  let sum = 0;
  let moment = 0;
  for (let i = 0; i < n; i++) {
    sum += values[i];
    moment += values[i] * (i - middle);
  }
  const mean = sum / n;
  const slope = n > 1 ? moment / ((n * (n * n - 1)) / 12) : 0;
  for (let i = 0; i < n; i++) values[i] -= mean + slope * (i - middle);
}

/** Median over segments per bin, divided by its bias for exponential values. */
export function medianAverage(rows: readonly Float64Array[]): Float64Array {
  const n = rows.length % 2 === 1 ? rows.length : rows.length - 1;
  let bias = 1;
  for (let j = 2; j + 1 <= n; j += 2) bias += 1 / (j + 1) - 1 / j;
  return Float64Array.from({ length: rows[0].length }, (_, k) => median(rows.map((row) => row[k])) / bias);
}
