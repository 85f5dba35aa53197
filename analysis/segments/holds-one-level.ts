import type { Sampling } from "../../shared/record/log-record";
import { indexAtOrAfter } from "../../shared/record/sampling";
import type { Stretch } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";

const WINDOW = 30; // s that a level is held at least
const LEAST_SAMPLES = 5;
const LEAST_STILL = 12;
/** Of the swing, and noise spreads: what counts as still, lowest to highest. */
const STILL = { share: 0.04, noises: 5 };
/** Windows of one long stillness that count: a night without a draw says no more than any other pause. */
const MOST_OF_ONE = 3;
/** Share of the still windows that lie at one level. Simulated sites: a switch at most 0.36 of 24, a drive over 0.4 in 18 of 24. */
const AT_ONE_LEVEL = 0.5;

/**
 * Whether the pressure, where it stands still, mostly stands at one level. A drive brings it back to its set pressure whatever was drawn before; with a pump on
 * a switch it stays where the last draw or the switch left it, anywhere between the two switching pressures.
 * @param swing from the usual start to the usual top, Pa
 */
export function holdsOneLevel(
  values: ArrayLike<number>,
  sampling: Sampling,
  stretches: readonly Stretch[],
  swing: number,
  noise: number,
): boolean {
  const allowed = Math.max(STILL.share * swing, STILL.noises * noise);
  const levels = Float64Array.from(stretches.flatMap((stretch) => stillLevels(values, sampling, stretch, allowed))).sort();
  if (levels.length < LEAST_STILL) return false;
  let most = 0;
  for (let first = 0, last = 0; last < levels.length; last++) {
    while (levels[last] - levels[first] > allowed) first++;
    most = Math.max(most, last - first + 1);
  }
  return most >= AT_ONE_LEVEL * levels.length;
}

function stillLevels(values: ArrayLike<number>, sampling: Sampling, { from, to }: Stretch, allowed: number): number[] {
  const levels: number[] = [];
  let inRow = 0;
  const window = Math.max(WINDOW, LEAST_SAMPLES * (sampleInterval(sampling)?.median ?? 0));
  for (let t: number = from; t + window <= to; t += window) {
    const level = levelOf(values, indexAtOrAfter(sampling, t), indexAtOrAfter(sampling, t + window), allowed);
    inRow = level === null ? 0 : inRow + 1;
    if (level !== null && inRow <= MOST_OF_ONE) levels.push(level);
  }
  return levels;
}

/** Middle of some samples that lie within so much of each other; null where they do not, or are too few. */
function levelOf(values: ArrayLike<number>, first: number, end: number, allowed: number): number | null {
  let [low, high, seen] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
  for (let i = first; i <= end && i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    low = Math.min(low, values[i]);
    high = Math.max(high, values[i]);
    seen++;
  }
  return seen >= LEAST_SAMPLES && high - low <= allowed ? (low + high) / 2 : null;
}
