import type { TextRow } from "./find-format";
import type { CellFormat } from "./row-cells";

/** Words, then "=" or ":", then a number: "pressure=3.6", "Flow: 12 L/min". A colon after a digit belongs to a time ("Mon 6 May 10:15"). */
const LABELLED = /^([\p{L}_][\p{L}\d_ .()[\]/-]{0,39}?)\s*(?:=|(?<![\d\s]):)\s*(?=[-+\u2212]?[.,]?\d)/u;

/** The value of a cell that carries its own name; the cell itself where it carries none. */
export const withoutLabel = (cell: string): string => cell.replace(LABELLED, "");

const FEWEST_ROWS = 3;
const SHARE = 0.8;

/**
 * Names that the cells of each column carry in most rows of the commonest width, null for a column without; null where no column has one. A column
 * counts only where all its names are the same: "a=1" beside "b=2" in one column are no table.
 */
export function findLabels(rows: readonly TextRow[]): readonly (string | null)[] | null {
  const widths = new Map<number, number>();
  for (const { cells } of rows)
    if (cells.some((cell) => LABELLED.test(cell))) widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
  const [width, count] = [...widths].reduce((best, entry) => (entry[1] > best[1] ? entry : best), [0, 0]);
  if (width < 2 || count < FEWEST_ROWS || count < SHARE * rows.filter(({ text }) => text.trim() !== "").length) return null;
  const body = rows.filter(({ cells }) => cells.length === width);
  const labels = Array.from({ length: width }, (_, column) => commonLabel(body.map(({ cells }) => cells[column])));
  return labels.every((label) => label === null) ? null : labels;
}

function commonLabel(cells: readonly string[]): string | null {
  const counts = new Map<string, number>();
  for (const cell of cells) {
    const label = LABELLED.exec(cell)?.[1];
    if (label !== undefined) counts.set(label, (counts.get(label) ?? 0) + 1);
  }
  for (const [label, count] of counts) if (count >= SHARE * cells.length) return label;
  return null;
}

/** Cells of a row without the names that their columns carry. */
export function stripLabels(cells: string[], labels: NonNullable<CellFormat["labels"]>): string[] {
  return cells.map((cell, i) => (labels[i] != null && cell.startsWith(labels[i]) ? withoutLabel(cell) : cell));
}
