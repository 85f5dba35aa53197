import { DATE_ORDERS } from "./date-order";
import { readPreambleClock, type ToldStamp, toldSeconds } from "./preamble-clock";
import type { DateOrder } from "./stamp";

/** A line between the rows that names the date of those below it: "Date: 14/05/2024" over times of day. `row` counts the rows read before it. */
export type DatedSection = { readonly row: number; readonly stamp: ToldStamp };

const LONGEST_LINE = 200;

/** The date that a line among the rows names; null where it names none. */
export function dateIn(text: string): ToldStamp | null {
  if (text.length > LONGEST_LINE || !/\d/.test(text)) return null;
  return readPreambleClock([text], []).stamps.find(({ hasDate, role }) => hasDate && role !== "written") ?? null;
}

const DAY = 86400;

/**
 * Times of day become instants: each section has its own date, and within it the day moves on at midnight. In place.
 * @param times seconds of the day, file order, shape [n]     @param start midnight of the first row's date as if UTC, s
 */
export function dateSections(times: Float64Array, start: number, sections: readonly DatedSection[]): void {
  const days = daysOf(sections, start);
  let [next, day, last] = [0, start, Number.NaN];
  for (let i = 0; i < times.length; i++) {
    for (; next < sections.length && sections[next].row <= i; next++) {
      day = days[next];
      last = Number.NaN;
    }
    if (Number.isNaN(times[i])) continue;
    if (times[i] < last - DAY / 2) day += DAY;
    last = times[i];
    times[i] += day;
  }
}

/** Dates of the sections in the order of day and month in which they follow the first and each other soonest. */
function daysOf(sections: readonly DatedSection[], start: number): readonly number[] {
  const read = (order: DateOrder) => sections.map(({ stamp }) => Math.floor(toldSeconds(stamp, order).seconds / DAY) * DAY);
  const cost = (days: readonly number[]) =>
    days.reduce((sum, day, i) => {
      const step = day - (i === 0 ? start : days[i - 1]);
      return sum + (step >= 0 ? step : -step * 100);
    }, 0);
  const readings = DATE_ORDERS.map(read).filter((days) => days.every((day) => !Number.isNaN(day)));
  return readings.reduce((best, days) => (cost(days) < cost(best) ? days : best), readings[0] ?? sections.map(() => start));
}
