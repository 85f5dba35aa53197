import { REACH, SHIELD } from "../../numerics/local-background";
import type { PaddedPower } from "./window-power";

const LEAST_WAVES = 4;
const NONE: number[] = [];

/** Bins whose power stands out of the plain mean of their neighbours: at most two, the second no harmonic of the first. */
export function standingOut({ power, sums }: PaddedPower, oversampling: number, leastPower: number, leastRatio: number): number[] {
  const low = Math.ceil(LEAST_WAVES * oversampling);
  const high = Math.floor((power.length - 1) / 2);
  let best = 0;
  let second = 0;
  let bestRatio = leastRatio;
  let secondRatio = leastRatio;
  for (let k = low; k <= high; k++) {
    const p = power[k];
    if (p < leastPower || p < power[k - 1] || p < power[k + 1]) continue;
    const ratio = p / neighbourMean(sums, power.length, k, oversampling);
    if (ratio > bestRatio) {
      if (!related(best, k, oversampling)) {
        second = best;
        secondRatio = bestRatio;
      }
      best = k;
      bestRatio = ratio;
    } else if (ratio > secondRatio && !related(best, k, oversampling)) {
      second = k;
      secondRatio = ratio;
    }
  }
  if (best === 0) return NONE;
  return second > 0 ? [best, second] : [best];
}

/** One bin near another, its harmonic or its part. */
function related(a: number, b: number, oversampling: number): boolean {
  if (a === 0) return false;
  const [low, high] = a < b ? [a, b] : [b, a];
  const order = Math.round(high / low);
  return Math.abs(high - order * low) <= SHIELD * oversampling * order && order <= 5;
}

/** Mean power from k / REACH to k * REACH without the tone and its second harmonic. O(1). */
function neighbourMean(sums: Float64Array, bins: number, k: number, oversampling: number): number {
  const shield = Math.floor(SHIELD * oversampling);
  const low = Math.max(shield, Math.ceil(k / REACH));
  const high = Math.min(bins - 1, Math.floor(k * REACH));
  let sum = sums[high + 1] - sums[low];
  let count = high + 1 - low;
  for (const centre of [k, 2 * k]) {
    const a = Math.max(low, centre - shield);
    const b = Math.min(high, centre + shield);
    if (b < a) continue;
    sum -= sums[b + 1] - sums[a];
    count -= b + 1 - a;
  }
  return count > 0 ? sum / count + Number.MIN_VALUE : Number.POSITIVE_INFINITY;
}

/** Place of a peak between bins: parabola through the logarithm of its neighbours. */
export function peakBin(power: Float64Array, k: number): number {
  const a = Math.log(power[k - 1] + Number.MIN_VALUE);
  const b = Math.log(power[k] + Number.MIN_VALUE);
  const c = Math.log(power[k + 1] + Number.MIN_VALUE);
  const bend = a - 2 * b + c;
  return bend < 0 ? k + (0.5 * (a - c)) / bend : k;
}
