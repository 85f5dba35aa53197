/** Fewer changes beyond the dead band leave it to chance how they stand: 40 where 120 are expected inside. */
export const FEWEST_CHANGES = 40;
/** Of a sinusoid, the worst that is sampled, changes are twice as dense beyond any width as within it: 1 - 1/3 against 1/3 at half of the greatest. */
const MOST_DENSE = 3;
/** Where a dead band is looked for: these shares of the changes lie below. */
const SHARES = [0, 0.02, 0.05, 0.1, 0.2, 0.3];
/** Of what is written after a silence, so much may lie within the dead band: by the other channels or a heartbeat. Half does where it hunts to and fro. */
const MOST_WITHIN = 0.25;
/** Over two scans a ramp changes by 2 and a random walk by the root of 2 of what it does over one; half of the way, as a factor, from no difference. */
const MOST_GROWN = 2 ** 0.25;

/** Whether changes just beyond some width are much denser than those within it, and a silence ends with such a change too. Both sorted. */
export function hasDeadBand(changes: Float64Array, over: Float64Array): boolean {
  const finest = changes.find((change) => change > 0) ?? 0;
  const rounding = finest * 1e-3; // values in SI miss their last digit
  return SHARES.some((share) => {
    const width = Math.max(finest, changes[Math.floor(share * changes.length)]) - rounding;
    const within = countBelow(changes, width);
    const beyond = countBelow(changes, 2 * width) - within;
    // a digit of zero stands for changes up to half a digit, the others for half a digit to either side
    const density = within / (width - finest / 2);
    const keepsTo = countBelow(over, width) <= MOST_WITHIN * over.length;
    return keepsTo && beyond >= FEWEST_CHANGES && beyond / width > MOST_DENSE * density;
  });
}

/** Whether a value moves more over long times than over short ones, as it does where it went on unseen: by their medians, or another share of them. Both sorted. */
export const hasGrown = (long: Float64Array, short: Float64Array, share = 0.5): boolean =>
  atShare(long, share) > atShare(short, share) * MOST_GROWN;

const atShare = (sorted: Float64Array, share: number) => sorted[Math.floor(share * sorted.length)] ?? 0;

export const medianOf = (sorted: Float64Array) => atShare(sorted, 0.5);

/** How many of some sorted numbers lie below a limit. */
export function countBelow(sorted: Float64Array, limit: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle] < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
