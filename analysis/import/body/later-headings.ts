import { cellKind } from "../cell-kind";
import { unitInHeading } from "../columns/unit-from-text";
import { isUnitsRow, namesTime } from "../dialects/heading-rows";
import { mendText } from "../mend-text";
import type { TablePlan } from "../table-plan";

/** What a row of words below the data turns out to be. */
export type LaterHeading =
  | { readonly kind: "same" }
  /** The same headings in another order: place i of the plan is at columns[i] now, -1 where it is gone; units[i] is the unit it has now, where that is another. */
  | {
      readonly kind: "moved";
      readonly columns: readonly number[];
      readonly units: readonly (string | null)[];
      /** Headings that no column of the plan has. */
      readonly further: readonly string[];
    }
  | { readonly kind: "other-table" };

/** Headings over spans of time in the tables of statistics that some programs write below the log; common practice, no source. */
const SPAN_WORD =
  /^(?:hour|day|week|month|year|period|stunde|tag|woche|monat|jahr|heure|jour|semaine|mois|hora|d[ií]a|semana|mes|m[êe]s|ora|giorno|settimana|mese|uur|dag|maand)s?$/i;

/** Headings that come again after a restart, or those of another table. Null where the row is no heading. */
export function laterHeading(cells: readonly string[], plan: TablePlan): LaterHeading | null {
  if (plan.above.some((row) => isMarked(row.line, plan) && sameCells(row.cells, cells))) return { kind: "same" };
  const units = newUnits(cells, plan);
  if (units !== null) return { kind: "moved", columns: plan.columns.map((_, i) => i), units, further: [] };
  const filled = cells.filter((cell) => cell !== "");
  if (
    filled.length < 2 ||
    !filled.some((cell) => namesTime(cell) || SPAN_WORD.test(cell)) ||
    filled.some((cell) => cellKind(cell, plan.numbers) !== "text")
  )
    return null;
  const names = cells.map((cell) => mendText(cell.replace(/\s+/g, " ")));
  const exact = plan.columns.map(({ heading }) => names.indexOf(heading));
  const columns = exact.map((at, i) => (at >= 0 ? at : inAnotherUnit(plan.columns[i].heading, names, exact)));
  const ownUnits = columns.map((at, i) => (at >= 0 && exact[i] < 0 ? (unitInHeading(names[at])?.text ?? null) : null));
  const keepsTime = plan.clock.columns.every((index) => columns[index] >= 0);
  const keepsValue = plan.columns.some((column) => column.use === "number" && columns[column.index] >= 0);
  if (!keepsTime || !keepsValue) return { kind: "other-table" };
  const further = names.filter((name, at) => name !== "" && !columns.includes(at));
  const stays = further.length === 0 && columns.every((at, i) => at === i) && ownUnits.every((unit) => unit === null);
  return stays ? { kind: "same" } : { kind: "moved", columns, units: ownUnits, further };
}

/** A row of units alone that gives a column another unit than it has; null where the row is none. */
function newUnits(cells: readonly string[], plan: TablePlan): readonly (string | null)[] | null {
  if (plan.unitLine === null || cells.length !== plan.columns.length || !isUnitsRow(cells)) return null;
  return plan.columns.map(({ reading, use, unitsCell }, i) =>
    use === "number" && reading.unit !== null && cells[i] !== unitsCell ? cells[i] : null,
  );
}

/** Where the same name stands with another unit ("Pressure (bar)" for "Pressure (psi)"): -1 where it does not, or stands twice. */
function inAnotherUnit(heading: string, names: readonly string[], taken: readonly number[]): number {
  const bare = bareName(heading);
  if (bare === "" || unitInHeading(heading) === null) return -1;
  const found = names.flatMap((name, at) => (!taken.includes(at) && bareName(name) === bare && unitInHeading(name) !== null ? [at] : []));
  return found.length === 1 ? found[0] : -1;
}

const bareName = (heading: string) =>
  heading
    .replace(/[[({<][^\])}>]*[\])}>]/g, " ")
    .trim()
    .toLowerCase();

const isMarked = (line: number, plan: TablePlan) => plan.headingLines.includes(line) || plan.unitLine === line;

/** Blank cells aside: a row of units by their place has them or not, as it was read. */
function sameCells(a: readonly string[], b: readonly string[]): boolean {
  const [one, other] = [a, b].map((cells) => cells.filter((cell) => cell !== ""));
  return one.length === other.length && one.every((cell, i) => cell === other[i]);
}
