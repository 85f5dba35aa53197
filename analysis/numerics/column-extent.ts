import { remembered } from "./remember";

/** Least and greatest value of a column (NaN where it has none), and how many are missing. */
export type ColumnExtent = { readonly low: number; readonly high: number; readonly missing: number };

/** Worked out once for each column, since many questions begin with it. Values shape [n], not changed afterwards. */
export const columnExtent = remembered(extentOf);

function extentOf(values: Float32Array | Float64Array): ColumnExtent {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let missing = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value < low) low = value;
    if (value > high) high = value;
    if (Number.isNaN(value)) missing++;
  }
  return low <= high ? { low, high, missing } : { low: Number.NaN, high: Number.NaN, missing };
}
