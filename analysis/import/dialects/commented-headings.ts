import type { Dialect } from "./dialect";
import { isUnitsRow, RULING, splitComment } from "./heading-rows";

/** Headings in a comment line right above the data ("# Time,Pressure"). Sample: sample-data/dialects/commented-headings.csv */
export const commentedHeadings: Dialect = {
  id: "commented-headings",
  recognise(head) {
    const near: { row: number; cells: string[] }[] = [];
    for (let i = head.firstData - 1; i >= 0 && near.length < 2; i--) {
      const row = head.rows[i];
      if (RULING.test(row.text)) continue;
      const { cells: own } = row;
      const marked = own[0] === "#" && isUnitsRow(own.slice(1));
      if (!marked && !head.isComment(row)) break;
      const cells = splitComment(row, head.signature.count);
      if (cells.length < 2 || Math.abs(cells.length - head.signature.count) > 1) break;
      near.push({ row: i, cells });
    }
    if (near.length === 0) return null;
    const [first, second] = near;
    if (second !== undefined && isUnitsRow(first.cells)) return { headingRows: [second.row], unitRow: first.row, headings: second.cells };
    return { headingRows: [first.row], unitRow: null, headings: first.cells };
  },
};
