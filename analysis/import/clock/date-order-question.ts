import type { ImportQuestion } from "../../../shared/record/import-question";
import type { DateOrder } from "./stamp";

/**
 * Asks for the order of day and month.
 * @param orders the possible ones, the assumed first     @param ranges first and last instant under each, s as if UTC
 */
export function dateOrderQuestion(orders: readonly DateOrder[], ranges: readonly (readonly [number, number])[]): ImportQuestion {
  return {
    id: "date-order",
    asks: { kind: "date-order", orders, ranges },
    options: orders,
    assumed: orders[0],
  };
}
