import type { ReadingNote } from "../../shared/wording/reading-note";
import { spacedWords } from "./columns/column-facts";
import { type ColumnReading, type ColumnText, NOTHING } from "./columns/column-reading";
import { OTHER_WORDS } from "./columns/role-words";
import { unitInHeading, wholeUnit } from "./columns/unit-from-text";
import { wordsAmongNumbers } from "./long-form";
import { isBeyondLimit, isMissing, type NumberFormat, parseNumber } from "./number-format";
import { countsRows } from "./row-numbers";
import type { PlannedColumn } from "./table-plan";

const FLOAT32_INTEGER = 2 ** 24;

/**
 * What becomes of a column: part of the clock, samples, or text that is left out.
 * @param time indexes of the columns of the clock     @param longValue index of the one column of values in long form, else null
 */
export function planColumn(
  text: ColumnText,
  found: ColumnReading,
  time: readonly number[],
  format: NumberFormat,
  longValue: number | null,
): PlannedColumn {
  const { index, heading, unitsCell, unitColumn = null } = text;
  const reading: ColumnReading =
    found.role === "time" && !time.includes(index) && isNoClock(text) ? { ...NOTHING, reason: [{ kind: "no-clock" }] } : found;
  if (longValue !== null) {
    const use = time.includes(index) ? "time" : index === longValue ? "number" : "text";
    // Role and unit belong to each channel and are found when all its values are there.
    const words = index === longValue ? (wordsAmongNumbers(text, format) ?? reading.words) : reading.words;
    const asWritten = { ...reading, factor: 1, offset: 0, sentinels: [], words };
    return {
      index,
      heading,
      unitsCell,
      unitColumn: null,
      reading: index === longValue ? asWritten : reading,
      use,
      marksMissing: true,
      wide: true,
    };
  }
  const skipped = reading.role === "time" || isNothing(text) || countsRows(text);
  const use = time.includes(index) ? "time" : !skipped && isNumeric(text, reading.words, format) ? "number" : "text";
  return {
    index,
    heading,
    unitsCell,
    unitColumn,
    reading,
    use,
    marksMissing: text.sample.some((cell) => cell !== "" && (isMissing(cell) || isBeyondLimit(cell))),
    wide: use === "number" && needsFloat64(text, reading, format),
  };
}

/** A date that is the same in every row, or a count of hours run, beside the clock itself. */
const isNoClock = ({ heading, sample }: ColumnText): boolean =>
  sample.every((cell) => cell === "" || cell === sample[0]) || OTHER_WORDS.test(spacedWords(heading));

/** A column of digits that are no numbers in this file's form, or of anything else under a heading with a unit, is left out, and that is said. */
export function unreadColumn({ heading, sample }: ColumnText, column: PlannedColumn): ReadingNote[] {
  if (column.use !== "text" || column.reading.role === "time") return [];
  const filled = sample.filter((cell) => !isMissing(cell));
  const digits = filled.filter((cell) => /^[+-]?\d[\d.,' ]*$/.test(cell));
  const areDigits = digits.length * 2 > filled.length && !/^\d+$/.test(digits[0]);
  const [cell] = areDigits ? digits : unitInHeading(heading) === null ? [] : filled;
  return cell === undefined ? [] : [{ kind: "unread-column", heading, cell: cell.slice(0, 40) }];
}

/** No heading, or one that is a unit, and not one cell: two delimiters in a row by the logger's habit. */
const isNothing = ({ heading, sample, index }: ColumnText) =>
  sample.every((cell) => cell === "") && (heading === `column ${index + 1}` || wholeUnit(heading) !== null);

/** At least half of what is not missing is a number, or a word that stands for one. */
function isNumeric(text: ColumnText, words: ReadonlyMap<string, number>, format: NumberFormat): boolean {
  let numbers = 0;
  let filled = 0;
  for (const cell of text.sample) {
    if (isMissing(cell) || isBeyondLimit(cell)) continue;
    filled++;
    if (words.has(cell.toLowerCase()) || !Number.isNaN(parseNumber(cell, format))) numbers++;
  }
  return filled === 0 ? text.sample.length > 0 : numbers * 2 >= filled;
}

/** More digits than a Float32 keeps: totalisers, counters, large numbers with a fraction. */
function needsFloat64(text: ColumnText, reading: ColumnReading, format: NumberFormat): boolean {
  if (reading.role === "volume" || reading.counter !== null) return true;
  return text.sample.some((cell) => Math.abs(parseNumber(cell, format)) >= FLOAT32_INTEGER);
}

/** One cell in so many may have other decimals than the rest: it is the one that is cut. */
const CUT_SHARE = 0.01;

/** Decimals of a column that writes its numbers with the same; null where they differ or there are none. */
export function fixedDecimals({ sample }: ColumnText, { decimal }: NumberFormat): number | null {
  const counts = new Map<number, number>();
  for (const cell of sample) {
    const at = cell.lastIndexOf(decimal);
    const decimals = at < 0 ? (/\d/.test(cell) ? 0 : null) : /^\d+$/.test(cell.slice(at + 1)) ? cell.length - at - 1 : 0;
    if (decimals !== null) counts.set(decimals, (counts.get(decimals) ?? 0) + 1);
  }
  const all = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const [usual, most] = [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best), [0, 0]);
  return usual > 0 && all - most <= Math.max(1, CUT_SHARE * all) ? usual : null;
}
