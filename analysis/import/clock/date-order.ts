import { civilFromDays, dayNumber, fullYear } from "./civil-days";
import { type DateOrder, stampSeconds } from "./stamp";
import { readStamp } from "./stamp-text";

export const DATE_ORDERS: readonly DateOrder[] = ["dmy", "mdy", "ymd", "ydm"];

/** A cell that the order in use cannot read but the k-th other can comes back raised by k times this, s (some 8,700 years; 0.03 ms remain exact). */
export const OTHER_ORDER = 2 ** 38;

/** The order in which a column is read under each order, and those orders that differ at all and read most cells. */
export type OrderChoice = { readonly orders: readonly DateOrder[]; readonly ambiguous: boolean };

/**
 * Which orders read the cells of a sample, those that read them alike counted once (as the first of dmy, mdy, ymd). The year first and the month last is
 * one of them only where no other reads as many cells: ISO 8601 has the month in the middle.
 */
export function possibleOrders(sample: readonly string[]): readonly DateOrder[] {
  const read = DATE_ORDERS.map((order) => Float64Array.from(sample, (cell) => secondsOf(cell, order)));
  const counts = read.map((values) => values.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0));
  const most = counts.reduce((a, b) => Math.max(b, a), 0);
  const possible: number[] = [];
  for (let k = 0; k < DATE_ORDERS.length; k++) {
    const isLast = DATE_ORDERS[k] === "ydm" && possible.length > 0;
    if (counts[k] === most && !isLast && possible.every((j) => differ(read[j], read[k]))) possible.push(k);
  }
  return possible.map((k) => DATE_ORDERS[k]);
}

/** Whether some cell is another date, or none, when day and month change places. */
export const orderMatters = (sample: readonly string[]): boolean =>
  sample.some((cell) => !Object.is(secondsOf(cell, "dmy"), secondsOf(cell, "mdy")));

const secondsOf = (cell: string, order: DateOrder): number => {
  const stamp = readStamp(cell, order);
  return stamp === null ? Number.NaN : stampSeconds(stamp);
};

const differ = (a: Float64Array, b: Float64Array): boolean => a.some((value, i) => !Object.is(value, b[i]));

/** What a stamp read in one order would be in another: the written fields taken the other way round; NaN where that date does not exist. */
export function reorder(seconds: number, from: DateOrder, to: DateOrder): number {
  const days = Math.floor(seconds / 86400);
  const { year, month, day } = civilFromDays(days);
  const fields = from === "dmy" ? [day, month, year] : from === "mdy" ? [month, day, year] : [year, month, day];
  const yearAt = (index: number) => (fields[index] > 99 && index === (from === "ymd" ? 0 : 2) ? fields[index] : fullYear(fields[index]));
  const twoDigit = (value: number) => (value > 99 ? value % 100 : value);
  const moved = (from === "ymd") !== (to === "ymd");
  const [a, b, c] = moved ? fields.map(twoDigit) : fields;
  const other =
    to === "dmy"
      ? dayNumber(moved ? fullYear(c) : yearAt(2), b, a)
      : to === "mdy"
        ? dayNumber(moved ? fullYear(c) : yearAt(2), a, b)
        : dayNumber(moved ? fullYear(a) : yearAt(0), b, c);
  return other * 86400 + (seconds - days * 86400);
}

/** How regular a clock a reading gives. */
type Regularity = { readonly backward: number; readonly leaps: number; readonly evenness: number; readonly steps: number };

/**
 * Which of two or three readings of the same rows gives a regular clock: fewest steps backward, then fewest leaps of more than half a day, then
 * most steps alike. Null where they are alike, as within one day.
 * @param readings seconds of the rows in file order, shape [orders][n]; NaN where not understood
 */
export function mostRegular(readings: readonly Float64Array[]): number | null {
  const found = readings.map(regularity);
  const best = (key: (r: Regularity) => number, margin: number): number | null => {
    const values = found.map(key);
    const least = values.reduce((a, b) => Math.min(b, a));
    const winners = values.flatMap((v, k) => (v <= least + margin ? [k] : []));
    return winners.length === 1 ? winners[0] : null;
  };
  // noise (rows out of order, a reset) adds to every reading alike, so only the difference decides
  const settled = best((r) => r.backward, 0) ?? best((r) => r.leaps, 0) ?? best((r) => -r.evenness, 0.2);
  // days, read as months or years, are never quite even: months have 28 to 31 days, years 365 or 366
  return settled ?? best((r) => (r.evenness === 1 && r.steps > 4 ? 0 : 1), 0);
}

/** Whether stamps with the year first leap or go back as ISO 8601 has them, and do so less often with the month last: "2024/05/02" before "2024/06/02". */
export function isMonthLast(cells: readonly string[]): boolean {
  if (!cells.some((cell) => /^\d{4}[-/.]/.test(cell))) return false;
  const [usual, last] = (["ymd", "ydm"] as const).map((order) => regularity(Float64Array.from(cells, (cell) => secondsOf(cell, order))));
  const readsAll = cells.every((cell) => cell === "" || !Number.isNaN(secondsOf(cell, "ydm")));
  // after a month without a row the two are alike but for the seam, which fits the sampling in one of them only
  return readsAll && last.leaps < usual.leaps && last.backward <= usual.backward && last.evenness > usual.evenness;
}

function regularity(times: Float64Array): Regularity {
  const middle = medianSize(times);
  const leap = Math.max(43200, 20 * middle);
  let [up, down, leaps, even, steps] = [0, 0, 0, 0, 0];
  let last = Number.NaN;
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    const step = t - last;
    last = t;
    if (!(step > 0 || step < 0)) continue;
    steps++;
    if (step > 0) up++;
    else down++;
    const size = Math.abs(step);
    if (size > leap) leaps++;
    if (Math.abs(size - middle) <= 1e-3 * middle + 1e-6) even++;
  }
  return { backward: Math.min(up, down), leaps, evenness: steps === 0 ? 0 : even / steps, steps };
}

/** Median size of the steps that are not 0, over an even choice of some thousands. */
function medianSize(times: Float64Array): number {
  const stride = Math.max(1, Math.floor(times.length / 8000));
  const sizes: number[] = [];
  for (let i = 1; i < times.length; i += stride) {
    const size = Math.abs(times[i] - times[i - 1]);
    if (size > 0) sizes.push(size);
  }
  const sorted = Float64Array.from(sizes).sort();
  return sorted[sorted.length >> 1] ?? 0;
}
