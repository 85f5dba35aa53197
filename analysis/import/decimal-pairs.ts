import { filledCells, rowAbove } from "./dialects/heading-rows";
import type { HeadTable } from "./head-table";
import type { CellFormat } from "./row-cells";

/**
 * A comma both between cells and inside numbers ("2024-05-01 10:00:00,52,3,12,1"): each number lies in two cells. Known by its headings, which
 * are as many as there are numbers, and by second halves that are whole numbers without a sign.
 * @returns the format that joins the pairs, null where the table is not of this kind
 */
export function findDecimalPairs(head: HeadTable, format: CellFormat): CellFormat | null {
  if (format.separator.kind !== "character" || format.separator.character !== ",") return null;
  const heading = rowAbove(head, head.firstData);
  if (heading < 0) return null;
  const names = filledCells(head, heading).length;
  const { count } = head.signature;
  const single = 2 * names - count;
  if (single < 0 || single >= names || names >= count) return null;
  const rows = head.rows.slice(head.firstData).filter((row) => row.cells.length === count);
  const paired = rows.every((row) =>
    row.cells.every((cell, i) => i < single || ((i - single) % 2 === 0 ? /^[+-]?\d+$/.test(cell) : /^\d+$/.test(cell))),
  );
  return paired && rows.length > 1 ? { ...format, separator: { kind: "character", character: ",", pairsFrom: single } } : null;
}
