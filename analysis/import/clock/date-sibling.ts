import { possibleOrders } from "./date-order";
import type { PreambleClock } from "./preamble-clock";
import type { DateOrder } from "./stamp";

const form = (text: string) =>
  /^\d{1,4}([-/.])\d{1,2}\1\d{1,4}/.exec(text)?.[0].replace(/\d+/g, (digits) => (digits.length > 2 ? "Y" : "n"));

/** A date above the table that is written like this one and exists in one order only. Null where there is none, or where several disagree. */
export function orderOfSibling(
  cell: string,
  possible: readonly DateOrder[],
  { stamps }: Pick<PreambleClock, "stamps">,
): { readonly order: DateOrder; readonly text: string } | null {
  const found = stamps.flatMap(({ text, hasDate }) => {
    const orders = hasDate && form(text) !== undefined && form(text) === form(cell) ? possibleOrders([text]) : [];
    return orders.length === 1 && possible.includes(orders[0]) ? [{ order: orders[0], text }] : [];
  });
  return found.length > 0 && found.every(({ order }) => order === found[0].order) ? found[0] : null;
}
