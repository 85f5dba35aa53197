import { possibleOrders } from "./date-order";
import type { PreambleClock } from "./preamble-clock";
import { type DateOrder, stampSeconds } from "./stamp";
import { readStamp } from "./stamp-text";

const form = (text: string) =>
  /^\d{1,4}([-/.])\d{1,2}\1\d{1,4}/.exec(text)?.[0].replace(/\d+/g, (digits) => (digits.length > 2 ? "Y" : "n"));

/** Whether the date falls on that day of the week in this order. 1970-01-01 was a Thursday. */
function fallsOn(text: string, order: DateOrder, weekday: number): boolean {
  const stamp = readStamp(text, order);
  return stamp !== null && (((Math.floor(stampSeconds(stamp) / 86_400) + 3) % 7) + 7) % 7 === weekday;
}

/** A date above the table that is written like this one and exists, or falls on the day of the week named with it, in one order only. Null where there is none, or where several disagree. */
export function orderOfSibling(
  cell: string,
  possible: readonly DateOrder[],
  { stamps }: Pick<PreambleClock, "stamps">,
): { readonly order: DateOrder; readonly text: string } | null {
  const found = stamps.flatMap(({ text, hasDate, weekday }) => {
    const written = hasDate && form(text) !== undefined && form(text) === form(cell) ? possibleOrders([text]) : [];
    const orders = weekday === undefined ? written : written.filter((order) => fallsOn(text, order, weekday));
    return orders.length === 1 && possible.includes(orders[0]) ? [{ order: orders[0], text }] : [];
  });
  return found.length > 0 && found.every(({ order }) => order === found[0].order) ? found[0] : null;
}
