import { normalQuantile } from "./distributions";
import { finiteValues, type Numbers, quantileOfSorted } from "./order-statistics";

/**
 * Median with the distribution-free interval of order statistics: ranks (n -+ z sqrt(n)) / 2, the whole range where n is small.
 * NaN with no value. Source: binomial interval of the median, normal approximation; David & Nagaraja, Order Statistics, sec. 7.1.
 */
export function medianInterval(values: Numbers, level = 0.95): { readonly value: number; readonly low: number; readonly high: number } {
  const sorted = finiteValues(values).sort();
  const n = sorted.length;
  const reach = (normalQuantile((1 + level) / 2) * Math.sqrt(n)) / 2;
  const low = Math.max(0, Math.floor(n / 2 - reach));
  const high = Math.min(n - 1, Math.ceil(n / 2 + reach));
  return { value: quantileOfSorted(sorted, 0.5), low: sorted[low] ?? Number.NaN, high: sorted[high] ?? Number.NaN };
}
