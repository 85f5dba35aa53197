import { looksLikeTime } from "../cell-kind";
import type { HeadTable } from "../head-table";
import type { Dialect } from "./dialect";
import { couldBeHeadings, isUnitsRow, isUnitsUnderNames, namesTime, rowAbove } from "./heading-rows";

/** Headings over two or three rows (a group over its members), with or without a units row. Sample: sample-data/dialects/stacked-headings.csv */
export const stackedHeadings: Dialect = {
  id: "stacked-headings",
  recognise(head) {
    const last = rowAbove(head, head.firstData);
    if (last < 0) return null;
    const unitRow = isUnitsRow(head.rows[last].cells) || isUnitsUnderNames(head, last) ? last : null;
    const lowest = unitRow === null ? last : rowAbove(head, last);
    if (!couldBeHeadings(head, lowest)) return null;
    const headingRows = [lowest];
    for (let above = rowAbove(head, lowest); above >= 0 && headingRows.length < 3; above = rowAbove(head, above)) {
      if (!standsOver(head, above, headingRows[0])) break;
      headingRows.unshift(above);
    }
    return headingRows.length > 1 ? { headingRows, unitRow, headings: null } : null;
  },
};

/**
 * Whether the upper row belongs to the headings: it names the time where the lower does not, or its first cell is blank as over a group. A line of
 * the preamble has its key in the first cell.
 */
function standsOver(head: HeadTable, upper: number, lower: number): boolean {
  const top = head.rows[upper].cells;
  const below = head.rows[lower].cells;
  const filled = top.filter((cell) => cell !== "").length;
  if (filled === 0 || top.length > head.signature.count + 1 || top.some((cell) => /[:=]\s*\S/.test(cell))) return false;
  if (top[0] === "" && filled >= 1) return top.length >= 2 && below[0] !== "";
  if (filled < 2 || !top.some(namesTime)) return false;
  if (!below.some(namesTime)) return true;
  if (isUnitsRow(below.filter((cell) => !namesTime(cell)))) return false;
  // Names over descriptions ("Time;Pressure" over "date and time;at the tank"): both as wide as the data, all in words.
  const words = (cells: readonly string[]) =>
    cells.length === head.signature.count &&
    cells.every((cell) => cell !== "" && (!/\d{2}/.test(cell) || /\p{L}/u.test(cell)) && !looksLikeTime(cell));
  return head.signature.count > 2 && namesTime(top[0]) && words(top) && words(below);
}
