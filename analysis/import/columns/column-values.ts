import { plainNumber } from "../clock/column-profile";
import type { ColumnText, FileContext } from "./column-reading";

/** The numbers of a column's sample and their spread, as the file writes them. */
export type ColumnValues = {
  /** Finite numbers in file order. */
  readonly numbers: Float64Array;
  readonly sorted: Float64Array;
  readonly sentinels: readonly number[];
  readonly low: number;
  readonly high: number;
  readonly median: number;
  /** Cells that are neither number nor a usual mark of a missing value. */
  readonly texts: readonly string[];
  readonly filled: number;
};

const MISSING = /^(?:|nan|null|none|n\/?a|#n\/?a|#value!|#div\/0!|-+|\?+|\*+|ol|\+?over|-?under|err(?:or)?|inf|-inf|\.+)$/i;

export function columnValues(column: ColumnText, { decimal, thousands }: FileContext): ColumnValues {
  const numbers: number[] = [];
  const texts: string[] = [];
  let filled = 0;
  for (const cell of column.sample) {
    if (MISSING.test(cell)) continue;
    filled++;
    const number = plainNumber(cell, decimal, thousands);
    const value = Number.isNaN(number) ? leadingNumber(cell, decimal, thousands) : number;
    if (Number.isNaN(value)) texts.push(cell);
    else numbers.push(value);
  }
  const all = Float64Array.from(numbers).sort();
  const sentinels = findSentinels(all);
  const sorted = sentinels.length === 0 ? all : all.filter((v) => !sentinels.includes(v));
  return {
    numbers: Float64Array.from(numbers.filter((v) => !sentinels.includes(v))),
    sorted,
    sentinels,
    low: sorted[0] ?? Number.NaN,
    high: sorted[sorted.length - 1] ?? Number.NaN,
    median: sorted[sorted.length >> 1] ?? Number.NaN,
    texts,
    filled,
  };
}

/** "3.4 bar" as 3.4. */
function leadingNumber(cell: string, decimal: "." | ",", thousands: string | null): number {
  const match = /^([+-]?\d[\d.,']*)\s*[^\d\s.,:/-][^:]*$/.exec(cell);
  return match === null ? Number.NaN : plainNumber(match[1], decimal, thousands);
}

const SENTINELS = [
  -99, -999, -9999, -99999, -999999, 999, 9999, 99999, 999999, 9999999, -999.9, -9999.9, 999.9, 9999.9, -99.9, -99.99, -999.99, 32767,
  -32768, 65535, 65534, -32767, 2147483647, -2147483648, 4294967295, 8388607, 850, -888, -8888, 6999, 7999, 1e30, -1e30, 1e31, 9.9e37,
  9.91e37, 3.4028235e38, -3.4028235e38, 1e20, 1e35,
];

/**
 * Numbers that stand for a missing value: one of the usual marks, at the very end of the values and far from all others (more than three times
 * their whole spread away). A usual mark inside the spread is a value.
 * @param sorted rising
 */
export function findSentinels(sorted: Float64Array): readonly number[] {
  const found: number[] = [];
  let [from, to] = [0, sorted.length - 1];
  for (let changed = true; changed && to - from > 2; ) {
    changed = false;
    for (const [edge, side] of [
      [sorted[from], 1],
      [sorted[to], -1],
    ] as const) {
      if (!isMark(edge)) continue;
      let [f, t] = [from, to];
      while (side === 1 && f <= t && sorted[f] === edge) f++;
      while (side === -1 && t >= f && sorted[t] === edge) t--;
      if (t - f < 2 || t - f + 1 < 0.2 * sorted.length) continue;
      const spread = Math.max(sorted[t] - sorted[f], 0.05 * Math.max(Math.abs(sorted[t]), Math.abs(sorted[f])), 1e-9);
      const distance = side === 1 ? sorted[f] - edge : edge - sorted[t];
      if (distance <= 3 * spread) continue;
      found.push(edge);
      [from, to] = [f, t];
      changed = true;
      break;
    }
  }
  return found;
}

const isMark = (value: number) => SENTINELS.some((mark) => Math.abs(mark - value) <= Math.abs(mark) * 1e-6);
