import { type Seconds, seconds } from "../units/quantity";
import type { Sampling } from "./log-record";

/** Number of samples. */
export const sampleCount = (s: Sampling): number => (s.kind === "even" ? s.count : s.times.length);

/** Instant of sample i, s after the record's first. */
export const timeAt = (s: Sampling, i: number): Seconds => seconds(s.kind === "even" ? s.start + s.step * i : s.times[i]);

/** All instants, shape [n], s. Makes an array for an even sampling: ask for it once. */
export function timesOf(s: Sampling): Float64Array {
  if (s.kind !== "even") return s.times;
  const times = new Float64Array(s.count);
  for (let i = 0; i < s.count; i++) times[i] = s.start + s.step * i;
  return times;
}

/** Index of the first sample at or after t; the sample count where there is none. O(log n). */
export function indexAtOrAfter(s: Sampling, t: number): number {
  if (s.kind === "even") {
    if (s.count === 0) return 0;
    const guess = Math.ceil((t - s.start) / s.step - 1e-9);
    return Math.min(s.count, Math.max(0, guess));
  }
  let low = 0;
  let high = s.times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (s.times[middle] < t) low = middle + 1;
    else high = middle;
  }
  return low;
}
