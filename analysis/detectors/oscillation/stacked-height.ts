import { studentQuantile } from "../../numerics/distributions";
import { variance } from "../../numerics/moments";
import { LET_PASS, type Top, topOf, topsWithout } from "./stack-top";
import type { Stack, StackedWaves } from "./stacked-waves";

/** Height from crest to trough of the usual wave and its 95 % interval, Pa. */
export type StackedHeight = {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** What is taken off where each sample is a mean over its interval, Pa. */
  readonly hidden: number;
  /** Standard deviation of a sample around the usual wave at its turns, Pa: noise, and what the waves differ by. */
  readonly scatter: number;
};

/** Parts of the waves that are left out in turn. */
const MOST_GROUPS = 16;
const LEAST_GROUPS = 4;
/** Noise of a sample over the height from which on crests are no longer found one by one. */
const NOISY = 0.1;

/**
 * Height of the waves laid over each other at their crests and at their troughs; null where noise hides the single wave, or too few samples show it.
 * The interval: by leaving out parts of the waves in turn (jackknife, Tukey 1958), and what another curve through crests and troughs would say. Upward it holds what a
 * logger flattens that stores means. Whether it does, the log does not say.
 * @param perWave samples
 */
export function stackedHeight(stacks: StackedWaves, perWave: number): StackedHeight | null {
  const [crest, trough] = [topOf(stacks.crest, 1), topOf(stacks.trough, -1)];
  if (crest === null || trough === null) return null;
  const value = crest.value - trough.value;
  const scatter = Math.max(crest.noise, trough.noise);
  if (!(value > 0) || scatter > NOISY * value) return null;
  const groupOf = groupsOf(stacks.crest);
  const tops = ([1, -1] as const).map((sign) => {
    const [stack, top] = sign === 1 ? [stacks.crest, crest] : [stacks.trough, trough];
    return topsWithout(stack, sign, top, stack.waves.map(groupOf.of), groupOf.count);
  });
  const without = tops[0].flatMap((high, g) => {
    const low = tops[1][g];
    return high === null || low === null ? [] : [high - low];
  });
  if (without.length < LEAST_GROUPS) return null;
  const sd = Math.sqrt(((without.length - 1) ** 2 / without.length) * variance(without));
  const reach = Math.hypot(sd * studentQuantile(0.975, without.length - 1), Math.SQRT2 * LET_PASS * value);
  const share = 1 / perWave;
  const hidden = flattenedBy(share, crest) + flattenedBy(share, trough);
  return {
    value,
    low: Math.max(0, crest.low - trough.high - reach),
    high: crest.high - trough.low + reach + hidden,
    hidden,
    scatter,
  };
}

/**
 * What a mean over a share d of the wave takes off a top: of a corner with slopes a and b (a + b) d / 8, of a bend c u^2 it takes c d^2 / 12 (the first term of sin x / x for a sine).
 * A bend seen in no more than about a sample's width may be a corner that the mean itself has rounded, to c = (a + b) / 2d, so that c d^2 / 4 is gone.
 */
const flattenedBy = (d: number, { slopes, bend, half }: Top): number => (slopes * d) / 8 + (bend * d * d) / (half > WIDE * d ? 12 : 4);

/** Half a window that holds the samples beside the top on either side whole. Sample widths. */
const WIDE = 1.5;

/** The waves in up to so many parts, one after another. */
function groupsOf({ waves }: Stack): { readonly count: number; readonly of: (wave: number) => number } {
  const first = waves.reduce((least, w) => Math.min(least, w), Number.POSITIVE_INFINITY);
  const spanned = waves.reduce((most, w) => Math.max(most, w), first) - first + 1;
  const count = Math.min(MOST_GROUPS, spanned);
  return { count, of: (wave) => Math.max(0, Math.min(count - 1, Math.floor(((wave - first) * count) / spanned))) };
}
