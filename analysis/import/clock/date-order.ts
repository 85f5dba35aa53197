import { civilFromDays, dayNumber, fullYear } from "./civil-days";
import { type DateOrder, readStamp, stampSeconds } from "./stamp-text";

export const DATE_ORDERS: readonly DateOrder[] = ["dmy", "mdy", "ymd"];

/** A cell that the order in use cannot read but the k-th other can comes back raised by k times this, s (some 8,700 years; 0.03 ms remain exact). */
export const OTHER_ORDER = 2 ** 38;

/** The order in which a column is read under each order, and those orders that differ at all and read most cells. */
export type OrderChoice = { readonly orders: readonly DateOrder[]; readonly ambiguous: boolean };

/** Which orders read the cells of a sample, those that read them alike counted once (as the first of dmy, mdy, ymd). */
export function possibleOrders(sample: readonly string[]): readonly DateOrder[] {
  const read = DATE_ORDERS.map((order) => Float64Array.from(sample, (cell) => secondsOf(cell, order)));
  const counts = read.map((values) => values.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0));
  const most = counts.reduce((a, b) => Math.max(b, a), 0);
  const possible: number[] = [];
  for (let k = 0; k < DATE_ORDERS.length; k++) {
    if (counts[k] === most && possible.every((j) => differ(read[j], read[k]))) possible.push(k);
  }
  return possible.map((k) => DATE_ORDERS[k]);
}

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
type Regularity = { readonly backward: number; readonly leaps: number; readonly evenness: number };

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
  return best((r) => r.backward, 0) ?? best((r) => r.leaps, 0) ?? best((r) => -r.evenness, 0.2);
}

function regularity(times: Float64Array): Regularity {
  const steps: number[] = [];
  let last = Number.NaN;
  let [up, down] = [0, 0];
  for (const t of times) {
    if (Number.isNaN(t)) continue;
    if (!Number.isNaN(last) && t !== last) {
      steps.push(t - last);
      if (t > last) up++;
      else down++;
    }
    last = t;
  }
  if (steps.length === 0) return { backward: 0, leaps: 0, evenness: 0 };
  const sorted = Float64Array.from(steps, Math.abs).sort();
  const middle = sorted[sorted.length >> 1];
  const leap = Math.max(43200, 20 * middle);
  let [leaps, even] = [0, 0];
  for (const step of sorted) {
    if (step > leap) leaps++;
    if (Math.abs(step - middle) <= 1e-3 * middle + 1e-6) even++;
  }
  return { backward: Math.min(up, down), leaps, evenness: even / sorted.length };
}
