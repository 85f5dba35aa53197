import { cellKind } from "./cell-kind";
import type { ColumnText } from "./columns/column-reading";
import type { TableLayout } from "./dialects/dialect";
import { namesTime } from "./dialects/heading-rows";
import { type HeadTable, isAllWords, matchesSignature } from "./head-table";
import { mendText } from "./mend-text";
import type { NumberFormat } from "./number-format";

/** Rows of the head that make up the sample: hundreds say what a column is, and each cell is looked at many times. */
const NEAR_ROWS = 400;

/** Headings of one or several rows, joined column by column, blanks and line ends in them as single spaces. */
export function headingsOf(head: HeadTable, layout: TableLayout): string[] {
  const rows = layout.headings === null ? layout.headingRows.map((row) => head.rows[row].cells) : [layout.headings];
  const lowest = rows.length - 1;
  const units = layout.unitRow === null ? [] : head.rows[layout.unitRow].cells;
  const aligned = rows.map((cells) => alignHeadings(cells, head));
  const spread = aligned.map((cells, i) =>
    i < lowest ? overGroups(cells, aligned[lowest]) : i === 0 && rows.length === 1 ? overGroups(cells, units) : cells,
  );
  if (rows.length === 1) spread[0] = [...spread[0], ...(findFurther(spread[0], head)?.names ?? [])];
  return Array.from({ length: head.signature.count }, (_, column) =>
    spread
      .map((cells) => mendText((cells[column] ?? "").replace(/\s+/g, " ").replace(/^`(.*)`$/, "$1")))
      .filter((cell) => cell !== "")
      .join(" "),
  );
}

/** Columns that came in mid-file, under headings that name those above the table and more. */
type Further = {
  /** Row of those headings, counted as the rows of the head. */
  readonly at: number;
  /** The names that are new, which go behind the others. */
  readonly names: readonly string[];
  /** Where each column, the new ones last, stands in the rows below. */
  readonly places: readonly number[];
};

function findFurther(cells: readonly string[], { rows, kinds, signature, firstData }: HeadTable): Further | null {
  if (cells.length >= signature.count || cells.length < 2) return null;
  const at = rows.findIndex(
    (row, i) =>
      i > firstData &&
      row.cells.length === signature.count &&
      isAllWords(row.cells, kinds[i]) &&
      cells.every((cell) => row.cells.includes(cell)),
  );
  if (at < 0) return null;
  const again = rows[at].cells;
  const names = again.filter((cell) => !cells.includes(cell));
  return { at, names, places: [...cells, ...names].map((name) => again.indexOf(name)) };
}

/**
 * Headings one cell off the data: a mark "#" alone in front of them, or row numbers in the data that no heading names. Where the numbers begin above the
 * data, as those of a spreadsheet do, the row of headings has one too.
 */
function alignHeadings(cells: readonly string[], head: HeadTable): readonly string[] {
  const { count } = head.signature;
  if (cells.length === count + 1 && /^(?:#|\/\/|%|;)$/.test(cells[0])) return cells.slice(1);
  if (cells.length === count - 1 && count > 2 && countsRows(head)) return ["", ...cells];
  const half = cells.length === count - 1 ? splitStamp(cells, head.signature.kinds) : -1;
  if (half >= 0) return [...cells.slice(0, half), "", ...cells.slice(half)];
  if (/^\d+$/.test(cells[0]) && countsRows(head) && Number(cells[0]) < Number(head.rows[head.firstData].cells[0]))
    return ["", ...cells.slice(1)];
  return cells;
}

/** Where a time of day stands in a cell of its own behind its date, both under one heading; -1 where there is none. */
const splitStamp = (cells: readonly string[], kinds: readonly string[]): number =>
  kinds.findIndex((kind, i) => kind === "time" && kinds[i - 1] === "time" && namesTime(cells[i - 1]) && !namesTime(cells[i] ?? ""));

/** Whether the first column of the data counts its rows. */
function countsRows(head: HeadTable): boolean {
  const first = head.rows.slice(head.firstData, head.firstData + 50).filter((row) => row.cells.length === head.signature.count);
  return first.length > 1 && first.every((row, i) => /^\d+$/.test(row.cells[0]) && Number(row.cells[0]) === Number(first[0].cells[0]) + i);
}

/** A group names its first column only: its name reaches over the columns to the right that have a name or a unit of their own below. */
function overGroups(cells: readonly string[], below: readonly string[]): string[] {
  const spread = [...cells];
  for (let i = 1; i < below.length; i++) {
    const before = spread[i - 1] ?? "";
    if ((spread[i] ?? "") === "" && before !== "" && (below[i] ?? "") !== "" && (below[i - 1] ?? "") !== "") spread[i] = before;
  }
  return spread;
}

/** Columns with their samples; a first or last column that is nothing but a delimiter at the edge of the lines is left out. */
export function columnTexts(
  head: HeadTable,
  headings: readonly string[],
  unitRow: number | null,
  later: readonly (readonly string[])[],
  format: NumberFormat,
): ColumnText[] {
  const { signature } = head;
  const further = findFurther(
    headings.filter((heading) => head.rows.slice(0, head.firstData).some(({ cells }) => cells.includes(heading))),
    head,
  );
  const inOrder = (cells: readonly string[], i: number) =>
    further === null || i < further.at || cells.length < signature.count ? cells : further.places.map((place) => cells[place] ?? "");
  const near = head.rows.flatMap((row, i) =>
    i >= head.firstData && matchesSignature(head.kinds[i], signature) ? [inOrder(row.cells, i)] : [],
  );
  const isData = (cells: readonly string[]) =>
    cells.length === signature.count &&
    matchesSignature(
      cells.map((cell) => cellKind(cell, format)),
      signature,
    );
  const far = later.filter(isData);
  const rows = [...near.slice(0, NEAR_ROWS), ...far];
  const texts = Array.from(
    { length: signature.count },
    (_, index): ColumnText => ({
      index,
      heading: (headings[index] ?? "") === "" ? `column ${index + 1}` : headings[index],
      unitsCell: unitRow === null ? null : mendText(head.rows[unitRow].cells[index] ?? ""),
      sample: rows.map((cells) => cells[index] ?? ""),
    }),
  );
  const isEdge = (text: ColumnText | undefined) =>
    text !== undefined && texts.length > 1 && (headings[text.index] ?? "") === "" && text.sample.every((cell) => cell === "");
  while (isEdge(texts[texts.length - 1])) texts.pop();
  return texts;
}

/** The lines above the table that are neither headings nor units nor blank. */
export function preambleOf(head: HeadTable, layout: TableLayout): string[] {
  const above = head.rows.slice(0, head.firstData);
  const isNumbered = above.length > 0 && layout.headingRows.some((row) => /^\d+$/.test(head.rows[row].cells[0])) && countsRows(head);
  return above.flatMap((row, i) => {
    if (layout.headingRows.includes(i) || i === layout.unitRow || row.text.trim() === "") return [];
    return [mendText(isNumbered ? row.text.replace(/^["']?\d+["']?[,;\t|]/, "") : row.text)];
  });
}
