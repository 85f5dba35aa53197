import type { ReadingNote } from "../../shared/wording/reading-note";
import type { TableLayout } from "./dialects/dialect";
import { namesTime } from "./dialects/heading-rows";
import type { HeadTable } from "./head-table";

/** Tables of another kind above the log, such as alarms or events: headings that name a time, and rows with one below them. Their lines are left out, and that is said. */
export function tablesAbove(head: HeadTable, layout: TableLayout): ReadingNote[] {
  const end = Math.min(head.firstData, ...layout.headingRows);
  const notes: ReadingNote[] = [];
  for (let i = 0; i < end; i++) {
    if (!isHeading(head, i) || !head.kinds[i + 1]?.includes("time")) continue;
    let last = i + 1;
    while (last + 1 < end && head.kinds[last + 1].includes("time")) last++;
    if (last >= end) break;
    const names = head.rows[i].cells.filter((cell) => cell !== "").join(", ");
    notes.push({ kind: "other-table", headings: names.slice(0, 120), from: head.rows[i].line, to: head.rows[last].line });
    i = last;
  }
  return notes;
}

function isHeading({ rows, kinds }: HeadTable, row: number): boolean {
  const filled = kinds[row].filter((kind) => kind !== "missing");
  return filled.length > 1 && filled.every((kind) => kind === "text") && rows[row].cells.some(namesTime);
}
