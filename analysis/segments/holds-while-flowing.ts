import type { Sampling } from "../../shared/record/log-record";
import { indexAtOrAfter } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import type { Stretch } from "../faults/observed";
import { median, quantiles } from "../numerics/order-statistics";
import { someValues } from "../numerics/some-values";
import { noiseOf } from "./pressure-noise";

const WINDOW = 30; // s that a level is held at least
const LEAST_WINDOWS = 10;
/** Of the range of the pressure: what counts as still, and as the same level again. */
const STILL = 0.06;
/** Shares of the drawn windows that are still, and of these at one level. */
const STILL_SHARE = 1 / 3;
const AT_ONE_LEVEL = 0.8;

/**
 * Whether the pressure stays at one level while water flows through a meter: then something gives that water and holds the pressure, a drive. A pump on a
 * switch lets the pressure fall in a rest and lift in a run; where the draw just equals what it gives, the level goes by the draw.
 */
export function holdsWhileFlowing(
  values: ArrayLike<number>,
  sampling: Sampling,
  stretches: readonly Stretch[],
  flowing: (t: Seconds) => boolean,
): boolean {
  const [low, high] = quantiles(someValues(values), [0.01, 0.99]);
  const allowed = Math.max(STILL * (high - low), 4 * noiseOf(values));
  let drawn = 0;
  const still: number[] = [];
  for (const { from, to } of stretches) {
    for (let t = from; t + WINDOW <= to; t = seconds(t + WINDOW)) {
      const instants = [t, seconds(t + WINDOW / 2), seconds(t + WINDOW)];
      if (!instants.every(flowing)) continue;
      const [a, b, c] = instants.map((at) => values[Math.min(values.length - 1, indexAtOrAfter(sampling, at))]);
      drawn++;
      if (Math.abs(b - a) <= allowed && Math.abs(c - a) <= allowed) still.push(b);
    }
  }
  if (still.length < Math.max(LEAST_WINDOWS, STILL_SHARE * drawn)) return false;
  const level = median(Float64Array.from(still));
  return still.filter((v) => Math.abs(v - level) <= allowed).length >= AT_ONE_LEVEL * still.length;
}
