import type { TextRow } from "./find-format";
import { mendText } from "./mend-text";

/**
 * Rows below headings that came again in another order, with their cells in the order of the first: a column is judged by its own cells, wherever they
 * stand. `exchanged`: whether there were such rows; then nobody knows the order further on in the file.
 */
export function inFirstOrder(rows: readonly TextRow[]): { readonly rows: readonly TextRow[]; readonly exchanged: boolean } {
  const known = new Map<string, readonly string[]>();
  let places: readonly number[] | null = null;
  let exchanged = false;
  const ordered = rows.map((row) => {
    const names = headingsIn(row.cells);
    if (names !== null) {
      const key = [...names].sort().join("\n");
      const first = known.get(key) ?? names;
      known.set(key, first);
      places = first === names ? null : first.map((name) => names.indexOf(name));
      exchanged ||= places?.some((place, i) => place !== i) ?? false;
    }
    return places === null ? row : { ...row, cells: inPlaces(row.cells, places) };
  });
  return exchanged ? { rows: ordered, exchanged } : { rows, exchanged };
}

/** Two different names at least, each a word or more: a row that may head a table; null where it cannot. */
function headingsIn(cells: readonly string[]): readonly string[] | null {
  if (cells.length < 2 || !cells.every((cell) => /^[^\d+-]*\p{L}/u.test(cell))) return null;
  const names = cells.map((cell) => mendText(cell.replace(/\s+/g, " ")));
  return new Set(names).size === names.length ? names : null;
}

/** A row of another width stays as it is. */
const inPlaces = (cells: readonly string[], places: readonly number[]): readonly string[] =>
  cells.length === places.length ? places.map((place) => cells[place]) : cells;
