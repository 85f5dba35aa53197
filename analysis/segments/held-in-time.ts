import type { Sampling } from "../../shared/record/log-record";
import { rememberedForTwo } from "../numerics/remember";

/** A value counts once for each of so many equal parts of the record that it was held, and once at the least. */
const PARTS = 100_000;

/**
 * Values as an even sampling would have seen them, for all that goes by how often a value comes. A log on change has a row for each move of a ramp and one for a whole
 * night of rest: by rows the rest is rare and no level of its own. The array itself where it was sampled. Shape [n] -> [at most n + 100 000]
 */
export const heldInTime = rememberedForTwo((values: ArrayLike<number>, sampling: Sampling): ArrayLike<number> => {
  if (sampling.kind !== "on-change" || values.length === 0) return values;
  const { times, until } = sampling;
  const part = (until - times[0]) / PARTS;
  const copies = (i: number) => Math.max(1, Math.floor(((times[i + 1] ?? until) - times[i]) / part) || 0);
  let count = 0;
  for (let i = 0; i < values.length; i++) count += copies(i);
  const held = new Float64Array(count);
  for (let i = 0, k = 0; i < values.length; i++) for (let n = copies(i); n > 0; n--) held[k++] = values[i];
  return held;
});
