import { findUnit, type Unit } from "../../../shared/units/unit-table";
import { isMissing } from "../number-format";
import type { ColumnText } from "./column-reading";
import { unitInHeading, wholeUnit } from "./unit-from-text";

/** Headings over units, in the languages of the headings; common practice, no source. */
export const UNIT_WORD = /\b(?:unit|units|uom|eu|dimension|(?:maß|mess)?einheit|unité|unite|unidad|unidade|unità|unita|eenheid)\b/i;

/** The quantity of a unit, however its reference is written. */
const family = ({ quantity }: Unit) => (quantity.toLowerCase().endsWith("pressure") ? "pressure" : quantity);

/**
 * Numbers whose unit stands in the next column ("Pressure,Unit" over "3.41,bar") get it as if a row of units named it, and the place of that column,
 * since a logger that chooses its own range may change it from row to row.
 */
export function withUnitColumns(columns: readonly ColumnText[]): readonly ColumnText[] {
  return columns.map((column, i) => {
    const next = columns[i + 1];
    if (next === undefined || (column.unitsCell ?? "") !== "" || unitInHeading(column.heading) !== null || !isNumeric(column))
      return column;
    // "Pressure;bar" over "3.70;": the unit heads a column of nothing
    if (next.sample.every((cell) => cell === "") && wholeUnit(next.heading) !== null) return { ...column, unitsCell: next.heading };
    const usual = commonUnit(next);
    return usual === null ? column : { ...column, unitsCell: usual, unitColumn: next.index };
  });
}

const isNumeric = ({ sample }: ColumnText) => {
  const filled = sample.filter((cell) => !isMissing(cell));
  return filled.length > 0 && filled.filter((cell) => /^[-+−(]?[\d.,]/.test(cell)).length * 2 > filled.length;
};

/** The commonest of the units that are all a column holds, of one quantity; null where it holds something else, or single letters under a heading that does not say unit. */
function commonUnit({ heading, sample }: ColumnText): string | null {
  const counts = new Map<string, number>();
  for (const cell of sample) if (!isMissing(cell)) counts.set(cell, (counts.get(cell) ?? 0) + 1);
  if (counts.size === 0 || counts.size > 6) return null;
  const units = [...counts.keys()].map((cell) => wholeUnit(cell)?.unit ?? null);
  const [first] = units;
  if (first === null || units.some((unit) => unit === null || family(unit) !== family(first))) return null;
  const [usual] = [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best));
  return usual.length > 1 || UNIT_WORD.test(heading) ? usual : null;
}

/** What stands behind the digits of a value. */
const TAIL = /\d[.,]?\s*([^\d\s.,].*)$/s;

const STUCK = new Map<string, Unit | null>();

/** The unit of a text, remembered: few different ones come in a file. */
function remembered(text: string): Unit | null {
  const known = STUCK.get(text);
  if (known !== undefined) return known;
  const unit = wholeUnit(text)?.unit ?? null;
  if (STUCK.size < 500) STUCK.set(text, unit);
  return unit;
}

/** A unit that a single value carries, where it is another one of the same quantity than that of its column: SI = value * factor + offset. Null where it carries none. */
export function ownUnit(cell: string, columnUnit: string | null, beside: string | null): Unit | null {
  if (columnUnit === null) return null;
  const last = cell.charCodeAt(cell.length - 1);
  const stuck = last >= 48 && last <= 57 ? null : (TAIL.exec(cell)?.[1] ?? null);
  const text = stuck ?? beside;
  if (text === null || text === "" || text === columnUnit) return null;
  const unit = remembered(text);
  const usual = findUnit(columnUnit);
  if (unit === null || usual === null || family(unit) !== family(usual)) return null;
  return unit.factor === usual.factor && unit.offset === usual.offset ? null : unit;
}
