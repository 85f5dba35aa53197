import type { ReadingNote } from "../../shared/wording/reading-note";
import type { RowStore, Samples } from "./body/row-store";
import { findSentinels } from "./columns/sentinels";
import { dropImpossible } from "./impossible-values";
import type { PlannedColumn } from "./table-plan";

const SAMPLED = 2000;

/**
 * Takes out marks of missing values that stood in no sample of the file (-9999 once in a week): an extreme of the whole column that is a usual
 * mark and far from all other values, and what no sensor can have read. Changes the store; says what it did.
 */
export function dropLateSentinels(store: RowStore, numbers: readonly PlannedColumn[]): ReadingNote[] {
  return [...dropMarks(store, numbers), ...dropImpossible(store, numbers)];
}

function dropMarks(store: RowStore, numbers: readonly PlannedColumn[]): ReadingNote[] {
  return numbers.flatMap(({ heading, reading }, i) => {
    if (reading.quantity === "state") return [];
    const values = store.values[i].subarray(0, store.count);
    const inFile = (si: number) => roundTo7((si - reading.offset) / reading.factor);
    return findSentinels(picked(values, store.extremes(i)).map(inFile).sort()).map((mark): ReadingNote => {
      const count = dropMark(values, mark, inFile);
      store.lookAgain(i);
      return { kind: "late-sentinel", mark, heading, count };
    });
  });
}

const roundTo7 = (value: number) => Number(value.toPrecision(7));

/** An even choice of the values, with both extremes. */
function picked(values: Samples, extremes: ReturnType<RowStore["extremes"]>): Float64Array {
  const stride = Math.max(1, Math.floor(values.length / SAMPLED));
  const chosen: number[] = extremes === null ? [] : [extremes.low, extremes.high];
  for (let i = 0; i < values.length; i += stride) if (!Number.isNaN(values[i])) chosen.push(values[i]);
  return Float64Array.from(chosen);
}

function dropMark(values: Samples, mark: number, inFile: (si: number) => number): number {
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]) || Math.abs(inFile(values[i]) - mark) > Math.abs(mark) * 1e-6) continue;
    values[i] = Number.NaN;
    count++;
  }
  return count;
}
