/** Times between events that lie this close together are alike. */
const ALIKE = 1.3;

/** The span of a ratio of `ALIKE` that holds most of the times between events: its middle, and the share of all times in it. */
export function commonestGap(starts: readonly number[]): { readonly gap: number; readonly share: number } {
  const gaps = Float64Array.from(starts.slice(1), (t, i) => t - starts[i]).sort();
  let [most, at] = [0, 0];
  for (let low = 0, high = 0; low < gaps.length; low++) {
    while (high < gaps.length && gaps[high] <= ALIKE * gaps[low]) high++;
    if (high - low > most) [most, at] = [high - low, low];
  }
  return { gap: gaps[at + (most >> 1)] ?? Number.NaN, share: most / gaps.length };
}

/**
 * Whether so large a share of like times is more than chance brings. Events by chance (times spread as e^-t) come to 0.11 of their times
 * within a ratio of 1.3 where there are many; among few the best span holds more: 0.30 in 200 trials of 30, 0.5 in 200 of 12.
 */
export const isRhythm = (share: number, events: number): boolean => share > 0.25 + 3 / events;
