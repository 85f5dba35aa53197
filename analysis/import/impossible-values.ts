import type { ReadingNote } from "../../shared/wording/reading-note";
import type { RowStore } from "./body/row-store";
import type { ColumnReading } from "./columns/column-reading";
import type { PlannedColumn } from "./table-plan";

/** A perfect vacuum is one atmosphere (101,325 Pa, ISO 2533) below the air around; a tenth more is left to a sensor's own error. */
const VACUUM_GAUGE = -1.1 * 101_325;
const VACUUM_ABSOLUTE = -0.1 * 101_325;
/** The coldest air ever measured at the ground, -89.2 C, K: a broken wire reads further below (-127 C). Source: WMO archive of weather extremes, from memory. */
const COLDEST = 183.95;
/** More of them are a sensor that is set wrong, which is for the faults to say. */
const MOST_SHARE = 0.05;

/** The least that a column can read in nature, SI; null where nature sets no bound. */
function leastPossible({ role, quantity, position }: ColumnReading): number | null {
  if (role === "temperature") return COLDEST;
  if (role !== "pressure" || position === "difference") return null;
  return quantity === "gaugePressure" ? VACUUM_GAUGE : quantity === "absolutePressure" ? VACUUM_ABSOLUTE : null;
}

/** Takes out single values below a perfect vacuum or the coldest air, which no sensor can have read. Changes the store; says what it did. */
export function dropImpossible(store: RowStore, numbers: readonly PlannedColumn[]): ReadingNote[] {
  return numbers.flatMap(({ heading, reading }, i) => {
    const least = leastPossible(reading);
    if (least === null || !((store.extremes(i)?.low ?? 0) < least)) return [];
    const values = store.values[i].subarray(0, store.count);
    let count = 0;
    for (const value of values) if (value < least) count++;
    if (count > MOST_SHARE * store.count) return [];
    for (let k = 0; k < values.length; k++) if (values[k] < least) values[k] = Number.NaN;
    store.lookAgain(i);
    return [{ kind: "impossible-values", count, heading, bound: reading.role === "temperature" ? "coldest-air" : "vacuum" }];
  });
}
