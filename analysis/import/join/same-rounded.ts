import type { Channel } from "../../../shared/record/log-record";
import type { PlacedPart } from "./same-log";

/** Rows of two parts at the same instant. */
export type Pair = readonly [number, number];

/** Two sensors that differ by a fiftieth of the coarser digit fall to different sides of a rounding in so many cases. */
const AGREEING_SHARE = 0.98;
/** A coarse value that hardly changes fits many a sensor. */
const FEWEST_CHANGES = 5;

/**
 * Whether one part is the other written with fewer digits: every channel is the same within the rounding of the coarser, and at least one that is coarser
 * in one part changes often enough to tell. `pairs`: rows at the same instants.
 */
export function isSameRounded(a: PlacedPart, b: PlacedPart, pairs: readonly Pair[]): boolean {
  let told = false;
  for (let c = 0; c < a.channels.length; c++) {
    const [x, y] = [a.channels[c], b.channels[c]];
    if (x.sampling !== a.origins[0].sampling || y.sampling !== b.origins[0].sampling) continue;
    const [stepX, stepY] = [stepOf(x), stepOf(y)];
    const isRounded = Number.isFinite(stepX + stepY) && Math.max(stepX, stepY) > 1.5 * Math.min(stepX, stepY);
    const stray = isRounded ? 0.5 * Math.max(stepX, stepY) : 0;
    const agreeing = pairs.filter(([i, k]) => agrees(x.values[i], y.values[k], stray)).length;
    if (agreeing < AGREEING_SHARE * pairs.length) return false;
    const coarse = stepX > stepY ? pairs.map(([i]) => x.values[i]) : pairs.map(([, k]) => y.values[k]);
    told ||= isRounded && coarse.filter((value, n) => n > 0 && value !== coarse[n - 1]).length >= FEWEST_CHANGES;
  }
  return told;
}

/** Single precision keeps seven digits: so much of a value may be lost on either side. */
const PRECISION = 2 ** -22;

const agrees = (a: number, b: number, stray: number) =>
  (Number.isNaN(a) && Number.isNaN(b)) || Math.abs(a - b) <= stray + PRECISION * Math.max(Math.abs(a), Math.abs(b));

/** The least by which two values of a channel differ: its last digit, where it has enough values. SI; infinite where all are equal. */
function stepOf({ values }: Channel): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < sorted.length; i++) {
    const step = sorted[i] - sorted[i - 1];
    if (step > PRECISION * Math.abs(sorted[i]) && step < least) least = step;
  }
  return least;
}
