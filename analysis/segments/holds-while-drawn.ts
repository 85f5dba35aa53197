import type { Sampling } from "../../shared/record/log-record";
import { indexAtOrAfter } from "../../shared/record/sampling";
import { seconds } from "../../shared/units/quantity";
import type { Stretch } from "../faults/observed";
import { median, quantiles } from "../numerics/order-statistics";
import { someValues } from "../numerics/some-values";
import type { Curve } from "./pressure-bends";
import { noiseOf } from "./pressure-noise";

const WINDOW = 30; // s
const LEAST_WINDOWS = 10;
/** Of the range of the pressure: what counts as still, and as the same level again. */
const STILL = 0.06;
/** Share of the drawn windows that are still, and of these at one level. */
const MOSTLY = 0.5;

/**
 * Whether the pressure stays at one level while water is drawn after the tank: then something gives that water and holds the pressure, a drive. A pump on a
 * switch lets the pressure fall in a rest and lift in a run; where the draw just equals what it gives, the level goes by the draw.
 */
export function holdsWhileDrawn(
  values: ArrayLike<number>,
  sampling: Sampling,
  stretches: readonly Stretch[],
  drawing: NonNullable<Curve["drawing"]>,
): boolean {
  const [low, high] = quantiles(someValues(values), [0.01, 0.99]);
  const allowed = Math.max(STILL * (high - low), 4 * noiseOf(values));
  let drawn = 0;
  const still: number[] = [];
  for (const { from, to } of stretches) {
    for (let t = from; t + WINDOW <= to; t = seconds(t + WINDOW)) {
      const instants = [t, seconds(t + WINDOW / 2), seconds(t + WINDOW)];
      if (!instants.every(drawing)) continue;
      const [a, b, c] = instants.map((at) => values[Math.min(values.length - 1, indexAtOrAfter(sampling, at))]);
      drawn++;
      if (Math.abs(b - a) <= allowed && Math.abs(c - a) <= allowed) still.push(b);
    }
  }
  if (still.length < Math.max(LEAST_WINDOWS, MOSTLY * drawn)) return false;
  const level = median(Float64Array.from(still));
  return still.filter((v) => Math.abs(v - level) <= allowed).length >= 0.8 * still.length;
}
