import type { Numbers } from "./order-statistics";
import { remembered } from "./remember";

/** Least and greatest value of a column (NaN where it has none), and how many are missing. */
export type ColumnExtent = { readonly low: number; readonly high: number; readonly missing: number };

/** Worked out once for each column, since many questions begin with it. Values shape [n], not changed afterwards. */
export const columnExtent = remembered(extentOf);

function extentOf(values: Numbers): ColumnExtent {
  // places, not values: a loop that is compiled while it runs keeps whole numbers in registers, and puts every other one into fresh memory
  let low = -1;
  let high = -1;
  let missing = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) {
      missing++;
      continue;
    }
    if (low < 0 || values[i] < values[low]) low = i;
    if (high < 0 || values[i] > values[high]) high = i;
  }
  return low < 0 ? { low: Number.NaN, high: Number.NaN, missing } : { low: values[low], high: values[high], missing };
}
