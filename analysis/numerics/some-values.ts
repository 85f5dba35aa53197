import type { Numbers } from "./order-statistics";

/** Enough values for any quantile that a threshold rests on: the 0.1 % one then stands on twenty values. */
export const ENOUGH_FOR_QUANTILES = 20_000;

/**
 * Values from all over a long column, without the missing ones: at most about `most`, one from each of as many equal pieces. Its place in the piece is
 * scattered by multiplicative hashing, so that a period of the data does not meet a period of the choice. All of a short column.
 * @returns a copy of its own, shape [m]
 */
export function someValues(values: Numbers, most = ENOUGH_FOR_QUANTILES): Float64Array {
  const stride = Math.max(1, Math.floor(values.length / most));
  const pieces = Math.floor(values.length / stride);
  const kept = new Float64Array(pieces);
  let m = 0;
  for (let k = 0; k < pieces; k++) {
    const value = values[k * stride + ((Math.imul(k, 0x9e3779b1) >>> 0) % stride)];
    if (value - value === 0) kept[m++] = value;
  }
  return kept.subarray(0, m);
}
