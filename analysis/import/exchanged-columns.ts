import type { HeadTable } from "./head-table";
import { mendText } from "./mend-text";

/** Headings that came again among the first rows in another order: where each column stands in the rows below `at`. */
export type Exchange = { readonly at: number; readonly places: readonly number[] };

/** Every time that the very same headings come again below the data, in whatever order. */
export function findExchanges(headings: readonly string[], { rows, firstData, signature }: HeadTable): readonly Exchange[] {
  if (headings.length < 2 || new Set(headings).size < headings.length) return [];
  return rows.flatMap(({ cells }, at) => {
    if (at <= firstData || cells.length !== signature.count || headings.length !== cells.length) return [];
    const names = cells.map((cell) => mendText(cell.replace(/\s+/g, " ")));
    const places = headings.map((heading) => names.indexOf(heading));
    return places.includes(-1) ? [] : [{ at, places }];
  });
}

/** Whether the columns ever stand in another order than at the top. */
export const isExchanged = (exchanges: readonly Exchange[]): boolean =>
  exchanges.some(({ places }) => places.some((place, i) => place !== i));

/** Cells of the row at `row` in the order of the columns at the top. */
export function inFirstOrder(cells: readonly string[], row: number, exchanges: readonly Exchange[]): readonly string[] {
  const last = exchanges.findLast(({ at }) => at < row);
  return last === undefined ? cells : last.places.map((place) => cells[place] ?? "");
}
