import { findUnit } from "../../../shared/units/unit-table";
import { foldHeading } from "../clock/column-profile";
import { isRowCount } from "../row-numbers";
import type { ColumnChoice } from "./column-choices";
import type { ColumnText } from "./column-reading";
import { guessRole, type RoleGuess } from "./column-role";
import type { ColumnValues } from "./column-values";
import type { lastLetters } from "./last-letter";
import { readRange } from "./raw-signal";
import { type FoundUnit, unitInHeading, unitOfCell, wholeUnit, writtenUnit } from "./unit-from-text";

/** All that is known of a column of numbers before it is decided what it stands for. */
export type ColumnFacts = {
  readonly column: ColumnText;
  /** How questions call it. */
  readonly name: string;
  /** Folded words of the heading, with those of its line above the table where the heading says nothing. */
  readonly words: string;
  /** Folded words of heading and line without what stands in brackets: "motor (A)" is no motor A. */
  readonly place: string;
  /** Heading, units cell and its line above the table. */
  readonly text: string;
  readonly values: ColumnValues;
  readonly choice: ColumnChoice;
  readonly unit: FoundUnit | null;
  readonly unitFrom: "choice" | "units row" | "heading" | "preamble" | "cells" | null;
  /** What the lines above the table name as its unit; a range in another unit is none. */
  readonly unitAbove: FoundUnit | null;
  readonly guess: RoleGuess;
};

export function gatherFacts(
  column: ColumnText,
  name: string,
  line: string,
  preamble: readonly string[],
  values: ColumnValues,
  choice: ColumnChoice,
  letter: LastLetter,
): ColumnFacts {
  const own = spacedWords(column.heading);
  const above = spacedWords(line.split("|")[0]);
  // of "P2 = Booster flow" above the table the words count, not the letter
  const isSymbol = /^[a-z]{1,3} ?\d{0,3}$/.test(own) && guessRole(above, null, values).by === "words";
  const { unit: written, from } = findUnitOf(column, line, choice, values, letter, isSymbol ? above : own);
  const unit = from === "choice" ? written : asFileSays(written, column.heading, preamble);
  // acidity is no pressure of a head, and a "Q" that never changes and counts bits says how good the value beside it is
  const isQuality =
    column.heading === "Q" && unit === null && values.low === values.high && Number.isInteger(values.low) && values.low % 64 === 0;
  if (isQuality && values.low > 0) return qualityFacts(column, name, values, choice);
  const guessed = guessRole(/\bpH\b/.test(column.heading) ? "ph" : own, unit?.unit ?? null, values);
  const said: RoleGuess = isCount(column, guessed, unit, own) ? { role: "other", by: "rows", generic: false } : guessed;
  const told = line === "" ? null : guessRole(above, unit?.unit ?? null, values);
  const useLine = told !== null && (said.generic || isSymbol) && told.by !== "none";
  return {
    column,
    name,
    words: useLine ? `${isSymbol ? "" : own} ${spacedWords(line)}`.trim() : own,
    place: spacedWords(`${column.heading} ${useLine ? line : ""}`.replace(/[[({<][^\])}>]*[\])}>]/g, " ")),
    text: `${column.heading} | ${column.unitsCell ?? ""} | ${line}`,
    values,
    choice,
    unit,
    unitFrom: from,
    unitAbove: asFileSays(unitAbove(line), line, preamble),
    guess: useLine && told !== null ? { ...told, generic: false } : said,
  };
}

/** Numbers without a unit that rise by one from row to row count the rows under any heading but that of a meter. */
const isCount = (column: ColumnText, said: RoleGuess, unit: FoundUnit | null, words: string): boolean =>
  unit === null && said.role !== "volume" && !/\bpuls|\bimp|\bticks?\b/.test(words) && isRowCount(column);

/** The quality of another column's values, as industrial servers write it in the two highest bits of a byte (192 is good); common practice, no source. */
const qualityFacts = (column: ColumnText, name: string, values: ColumnValues, choice: ColumnChoice): ColumnFacts => ({
  column,
  name,
  words: "quality",
  place: "",
  text: column.heading,
  values,
  choice,
  unit: null,
  unitFrom: null,
  unitAbove: null,
  guess: { role: "other", by: "words", generic: false },
});

/** Folded, with camel case and digits set apart: "PumpPressure1" is "pump pressure 1". */
export const spacedWords = (text: string): string =>
  foldHeading({
    index: 0,
    heading: text.replace(/([\p{L}])(\d)/gu, "$1 $2").replace(/(\d)(\p{Lu})/gu, "$1 $2"),
    unitsCell: null,
    sample: [],
  });

function findUnitOf(
  column: ColumnText,
  line: string,
  choice: ColumnChoice,
  values: ColumnValues,
  letter: LastLetter,
  words: string,
): { unit: FoundUnit | null; from: ColumnFacts["unitFrom"] } {
  if (choice.unit !== null) return { unit: choice.unit, from: "choice" };
  const row = column.unitsCell === null ? null : (writtenUnit(column.unitsCell) ?? unitInHeading(column.unitsCell));
  if (row !== null) return { unit: row, from: "units row" };
  const own = guessRole(words, null, values);
  const heading = letter === "unit" ? wholeUnit(column.heading.slice(-1)) : unitInHeading(column.heading);
  const isPlace = letter === "place" || (letter === null && isBareLetter(column.heading, heading) && !suits(own, words, heading, values));
  if (heading !== null && !isPlace) return { unit: heading, from: "heading" };
  const cell = unitOfCells(column.sample);
  if (cell !== null) return { unit: cell, from: "cells" };
  const agreed = letter === null ? agreeingLetter(column.heading, values) : null;
  if (agreed !== null) return { unit: agreed, from: "heading" };
  for (const part of line.split(/[|;,\t]|\s\/\s/)) {
    const told = wholeUnit(part.trim()) ?? unitInHeading(part.trim());
    if (told !== null && suits(own, words, told, values)) return { unit: told, from: "preamble" };
  }
  // "Pressure 0-10 bar": the range is written in the unit of the values
  const range = readRange(`${column.heading} | ${line}`);
  return range === null ? { unit: null, from: null } : { unit: range.found, from: "heading" };
}

/** A part of the line that names a unit and holds no figures beside it. */
function unitAbove(line: string): FoundUnit | null {
  for (const part of line.split(/[|;,\t]/)) {
    const found = wholeUnit(part) ?? unitInHeading(part.trim());
    if (found !== null && !/\d/.test(part.replace(found.text, ""))) return found;
  }
  return null;
}

/** "Power W", "Level m", "Temp C", "waterTempC": one letter behind a blank, or a capital run together with words, is a unit where the words say its quantity. */
function agreeingLetter(heading: string, values: ColumnValues): FoundUnit | null {
  const match = /^(.*\p{L}.*)\s(\p{L})$/u.exec(heading) ?? /^(.*\p{Ll})(\p{Lu})$/u.exec(heading);
  const unit = match === null ? null : wholeUnit(match[2]);
  if (match === null || unit === null || ![unit.unit.symbol, ...unit.unit.aliases].includes(match[2])) return null;
  return guessRole(spacedWords(match[1]), unit.unit, values).by === "both" ? unit : null;
}

type LastLetter = ReturnType<typeof lastLetters>[number];

/** One letter behind an underscore: it may be a unit ("Motor_A") or part of the name ("Pressure_A"). */
const isBareLetter = (heading: string, unit: FoundUnit | null): unit is FoundUnit =>
  unit !== null && unit.text.length === 1 && heading.endsWith(unit.text);

/** A unit told elsewhere must not turn a pressure into a temperature. */
function suits(own: RoleGuess, words: string, unit: FoundUnit, values: ColumnValues): boolean {
  if (own.by === "none") return true;
  const both = guessRole(words, unit.unit, values);
  return both.role === own.role;
}

const IMPERIAL: Readonly<Record<string, string>> = { gpm: "imp gpm", gph: "imp gph", gal: "imp gal" };

/** A plain gallon is the American one unless the file says imperial. */
function asFileSays(found: FoundUnit | null, text: string, preamble: readonly string[]): FoundUnit | null {
  const other = found === null || !/^(?:gpm|gph|gals?|gallons?.*|gal\/\w+)$/i.test(found.text) ? undefined : IMPERIAL[found.unit.symbol];
  const imperial = /\bimp(?:erial)?\b|\buk gal/i;
  const unit =
    other === undefined || !(imperial.test(text) || preamble.some((line) => imperial.test(line) && /gal|gpm|unit/i.test(line)))
      ? null
      : findUnit(other);
  return unit === null || found === null ? found : { ...found, unit };
}

/** The unit stuck to most cells. */
function unitOfCells(sample: readonly string[]): FoundUnit | null {
  const step = Math.max(1, Math.floor(sample.length / 40));
  const found: FoundUnit[] = [];
  let looked = 0;
  for (let i = 0; i < sample.length; i += step) {
    if (sample[i] === "") continue;
    looked++;
    const unit = unitOfCell(sample[i]);
    if (unit !== null) found.push(unit);
  }
  return found.length * 2 > looked ? found[0] : null;
}
