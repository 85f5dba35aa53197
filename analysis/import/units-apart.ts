import { findUnit } from "../../shared/units/unit-table";
import { namesTime } from "./dialects/heading-rows";
import type { TextRow } from "./find-format";

/**
 * A unit behind a bare comma goes to the name before it ("Time,Pressure, bar,Flow, L/min"), where the headings then are as many as the cells of the rows.
 * Only a row of words that names a time is looked at.
 */
export function withUnitsJoined(rows: readonly TextRow[]): readonly TextRow[] {
  const first = rows.findIndex(({ cells }) => cells.filter((cell) => /^[-+]?\d[\d.,]*$/.test(cell)).length > 0 && cells.length > 1);
  const heading = first < 1 ? undefined : rows.slice(0, first).findLast(({ text }) => text.trim() !== "");
  const count = modalCount(rows.slice(Math.max(0, first)));
  if (heading === undefined || heading.cells.length === count || !heading.cells.some(namesTime)) return rows;
  const cells = joined(heading.cells);
  return cells.length === count ? rows.map((row) => (row === heading ? { ...row, cells } : row)) : rows;
}

function joined(cells: readonly string[]): readonly string[] {
  const names: string[] = [];
  for (const cell of cells) {
    const name = names.at(-1);
    const isUnit = name !== undefined && findUnit(cell) !== null && findUnit(name) === null;
    if (isUnit) names[names.length - 1] = `${name}, ${cell}`;
    else names.push(cell);
  }
  return names;
}

/** How many cells most rows have. */
function modalCount(rows: readonly TextRow[]): number {
  const tally = new Map<number, number>();
  for (const { cells, text } of rows) if (text.trim() !== "") tally.set(cells.length, (tally.get(cells.length) ?? 0) + 1);
  return [...tally].reduce((best, entry) => (entry[1] > best[1] ? entry : best), [0, 0])[0];
}
