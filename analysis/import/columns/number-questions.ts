import { CHANNEL_ROLES, type ChannelRole } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import { findUnit, type Unit } from "../../../shared/units/unit-table";
import type { ColumnFacts } from "./column-facts";
import type { FileFacts } from "./file-facts";
import { endsInDoubt } from "./last-letter";
import { findPosition } from "./position-words";
import { MACHINE_FACTS, MACHINE_WORDS } from "./role-words";
import { isImpossible, isUsual } from "./settle-scale";
import { unitInHeading } from "./unit-from-text";
import { unitOptions } from "./unit-proposal";

/** "Flow (L)" that does not rise: litres of each interval, or a flow whose "per" was left out. */
export const volumeQuestion = ({ name }: ColumnFacts, unit: Unit | null): ImportQuestion => {
  const symbol = unit?.symbol ?? "";
  return {
    id: `unit:${name}`,
    asks: { kind: "volume", name, unit: symbol },
    options: [symbol, ...["min", "s", "h"].map((time) => `${symbol}/${time}`).filter((per) => findUnit(per) !== null)],
    assumed: symbol,
  };
};

export function unitQuestion({ name, column }: ColumnFacts, role: ChannelRole, assumed: Unit): ImportQuestion {
  const options = unitOptions(role, assumed.symbol);
  return {
    id: `unit:${name}`,
    asks: { kind: "unit", name, likeliest: assumed.symbol },
    options: endsInDoubt(column.heading) ? [...options, "A"] : options,
    assumed: assumed.symbol,
  };
}

/** One place of the file says one unit and another a different one of the same quantity: the units row and the heading, or either and the lines above. */
export function conflictQuestion(facts: ColumnFacts): ImportQuestion[] {
  const { name, column, unit, unitFrom, unitAbove } = facts;
  if (unit === null || (unitFrom !== "units row" && unitFrom !== "heading")) return [];
  const heading = unitFrom === "units row" ? unitInHeading(column.heading) : null;
  const byHeading = heading !== null && disagree(unit.unit, heading.unit);
  const other = byHeading ? heading : unitAbove;
  if (other === null || !disagree(unit.unit, other.unit)) return [];
  return [
    {
      id: `unit:${name}`,
      asks: byHeading
        ? { kind: "unit-by-heading", name, heading: other.text, row: unit.text }
        : { kind: "unit-above", name, from: unitFrom === "heading" ? "heading" : "row", here: unit.text, above: other.text },
      options: [unit.unit.symbol, other.unit.symbol],
      assumed: unit.unit.symbol,
    },
  ];
}

/** Units of one quantity with values of their own; a pressure is one, whatever its reference. A scale beside the unit is asked for itself. */
const disagree = (a: Unit, b: Unit): boolean =>
  familyOf(a) === familyOf(b) && a.factor !== b.factor && findUnit(a.symbol) !== null && findUnit(b.symbol) !== null;

const familyOf = ({ quantity }: Unit): string => (/pressure/i.test(quantity) ? "pressure" : quantity);

/** A scale beside the unit may say what one step is, or what the numbers were multiplied by. */
export function scaleQuestion({ name, unit }: ColumnFacts, open: readonly Unit[], line: string | undefined): ImportQuestion[] {
  if (open.length === 0) return [];
  return [
    {
      id: `unit:${name}`,
      asks: { kind: "scale", name, unit: String(unit?.text), line: line ?? null, steps: open.map(({ symbol }) => symbol) },
      options: open.map(({ symbol }) => symbol),
      assumed: open[0].symbol,
    },
  ];
}

/** Values that no pump room has in the unit that the file names: the unit stands, and is asked. */
export function impossibleQuestion({ name, values, unitFrom, place }: ColumnFacts, role: ChannelRole, unit: Unit | null): ImportQuestion[] {
  if (unit === null || unitFrom === "choice" || !isImpossible(unit, role, values, findPosition(place))) return [];
  const fitting = unitOptions(role, null).filter((symbol) => isUsual(findUnit(symbol) ?? unit, role, values));
  return [
    {
      id: `unit:${name}`,
      asks: { kind: "impossible-unit", name, unit: unit.symbol, about: Number(values.median.toPrecision(3)) },
      options: [unit.symbol, ...fitting.filter((symbol) => symbol !== unit.symbol)],
      assumed: unit.symbol,
    },
  ];
}

/** Asked where the heading says nothing at all, or where it is not understood and either the file shows no pressure otherwise or the column may well be a channel. */
export function roleQuestion(facts: ColumnFacts, role: ChannelRole, file: FileFacts): ImportQuestion[] {
  const { column, name, guess, choice, unit, values } = facts;
  if (choice.role !== null || role !== "other" || guess.by !== "none" || !(values.low < values.high)) return [];
  const may = mayBeChannel(facts, file);
  // brackets hold a unit of another thing, unless nobody here reads the letters at all
  const saysUnit = /[([]/.test(column.heading) && (file.known > 0 || /[a-z]/i.test(column.heading));
  if (!may && !guess.generic && (file.hasPressure || unit !== null || saysUnit)) return [];
  return [
    {
      id: `column-role:${name}`,
      asks: { kind: "role", name, unit: unit?.text ?? null },
      options: CHANNEL_ROLES.filter((r) => r !== "time"),
      assumed: "other",
    },
  ];
}

/** More lengths than this in one file are those of another thing: no pump room has so many levels; common practice, no source. */
const MOST_LEVELS = 4;

/** A length may be a level or a head; what stands under the name of a machine alone may be its speed. */
function mayBeChannel({ column, words, unit, values }: ColumnFacts, { nameless }: FileFacts): boolean {
  if (unit !== null && unit.unit.quantity === "length") return nameless <= MOST_LEVELS;
  if (!MACHINE_WORDS.test(words) || MACHINE_FACTS.test(words) || values.rising) return false;
  return unit === null ? !/[([](?!.*\/\s*m)/.test(column.heading) : unit.unit.quantity === "fraction";
}
