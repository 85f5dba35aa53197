import type { ImportQuestion } from "../../../shared/record/import-question";
import type { DateOrder } from "./stamp";

export const ORDER_NAMES: Readonly<Record<DateOrder, string>> = {
  dmy: "day, month, year",
  mdy: "month, day, year",
  ymd: "year, month, day",
  ydm: "year, day, month",
};

/**
 * Asks for the order of day and month.
 * @param orders the possible ones, the assumed first     @param ranges first and last instant under each, s as if UTC
 */
export function dateOrderQuestion(orders: readonly DateOrder[], ranges: readonly (readonly [number, number])[]): ImportQuestion {
  return {
    id: "date-order",
    text: "The dates of this log can be read in more than one way. In which order are day and month written?",
    options: orders,
    meaning: orders.map(
      (order, k) => `${ORDER_NAMES[order]}: the log runs from ${sayInstant(ranges[k][0])} to ${sayInstant(ranges[k][1])}`,
    ),
    assumed: orders[0],
  };
}

const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

/** "3 April 2024 10:15" of seconds as if UTC; "?" where there is none. */
export function sayInstant(seconds: number): string {
  if (!Number.isFinite(seconds)) return "?";
  const at = new Date(Math.round(seconds * 1000));
  if (Number.isNaN(at.getTime())) return "?";
  const two = (n: number) => String(n).padStart(2, "0");
  return `${at.getUTCDate()} ${MONTHS[at.getUTCMonth()]} ${at.getUTCFullYear()} ${two(at.getUTCHours())}:${two(at.getUTCMinutes())}`;
}
