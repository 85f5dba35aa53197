import { isBeyondLimit, isMissing, parseNumber } from "../number-format";
import type { ColumnText, FileContext } from "./column-reading";
import { findSentinels } from "./sentinels";

/** The numbers of a column's sample and their spread, as the file writes them. */
export type ColumnValues = {
  /** Finite numbers in file order, sentinels left out. */
  readonly numbers: Float64Array;
  readonly sorted: Float64Array;
  readonly sentinels: readonly number[];
  readonly low: number;
  readonly high: number;
  readonly median: number;
  /** Cells that are neither number nor a usual mark of a missing value. */
  readonly texts: readonly string[];
  readonly filled: number;
  /** Numbers never fall, but for a few restarts, and rise in all: a counter. */
  readonly rising: boolean;
  /** All numbers are 0 or 1, or 0 and -1, as some programs write true. */
  readonly binary: boolean;
};

export function columnValues(column: ColumnText, { decimal, thousands }: FileContext): ColumnValues {
  const format = { decimal, thousands };
  const found: number[] = [];
  const texts: string[] = [];
  let filled = 0;
  for (const cell of column.sample) {
    if (isMissing(cell) || isBeyondLimit(cell)) continue;
    filled++;
    const value = parseNumber(cell, format);
    if (Number.isNaN(value)) texts.push(cell);
    else found.push(value);
  }
  const all = Float64Array.from(found).sort();
  const sentinels = findSentinels(all);
  const numbers = Float64Array.from(sentinels.length === 0 ? found : found.filter((v) => !sentinels.includes(v)));
  const sorted = sentinels.length === 0 ? all : all.filter((v) => !sentinels.includes(v));
  const last = sorted.length - 1;
  return {
    numbers,
    sorted,
    sentinels,
    low: sorted[0] ?? Number.NaN,
    high: sorted[last] ?? Number.NaN,
    median: sorted[sorted.length >> 1] ?? Number.NaN,
    texts,
    filled,
    rising: isRising(numbers),
    binary:
      sorted.length > 0 && (sorted.every((v) => v === 0 || v === 1) || (sorted[0] === -1 && sorted.every((v) => v === 0 || v === -1))),
  };
}

function isRising(numbers: Float64Array): boolean {
  let [rises, falls] = [0, 0];
  for (let i = 1; i < numbers.length; i++) {
    if (numbers[i] > numbers[i - 1]) rises++;
    else if (numbers[i] < numbers[i - 1]) falls++;
  }
  // a total that was set back once may end below its beginning
  return rises > 0 && falls <= 0.05 * rises && (numbers[numbers.length - 1] > numbers[0] || falls === 1);
}

/** The two numbers of a column that holds no others; null where it holds one, or more. */
export function twoLevels({ sorted, low, high }: Pick<ColumnValues, "sorted" | "low" | "high">): readonly [number, number] | null {
  return low < high && sorted.every((value) => value === low || value === high) ? [low, high] : null;
}

/** Of a column of which no value is known yet. */
export const NO_VALUES: ColumnValues = {
  numbers: new Float64Array(0),
  sorted: new Float64Array(0),
  sentinels: [],
  low: Number.NaN,
  high: Number.NaN,
  median: Number.NaN,
  texts: [],
  filled: 0,
  rising: false,
  binary: false,
};
