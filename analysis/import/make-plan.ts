import { ImportError } from "../../shared/problems/import-problem";
import type { ImportQuestion } from "../../shared/record/import-question";
import type { ReadingNote } from "../../shared/record/log-record";
import { alignUnits } from "./align-words";
import { withProvenPatterns } from "./body/calibrate-stamps";
import { countRows, readClock } from "./clock/read-clock";
import { columnTexts, headingsOf, preambleOf } from "./column-texts";
import { spacedWords } from "./columns/column-facts";
import { type ColumnReading, type ColumnText, type FileContext, NOTHING } from "./columns/column-reading";
import { readColumns } from "./columns/read-columns";
import { OTHER_WORDS } from "./columns/role-words";
import { withUnitColumns } from "./columns/unit-column";
import { wholeUnit } from "./columns/unit-from-text";
import { findCutStamps } from "./cut-stamps";
import { findDecimalPairs } from "./decimal-pairs";
import { findDevices } from "./devices";
import { findDialect } from "./dialects";
import { namesTime } from "./dialects/heading-rows";
import { findCellFormat, splitRows, type TextRow } from "./find-format";
import { findNumberFormat } from "./find-number-format";
import { findHeadTable, type HeadTable } from "./head-table";
import type { ImportChoices } from "./import-log";
import { findLabels } from "./labelled-cells";
import { findLongForm, saysValue, wordsAmongNumbers } from "./long-form";
import { isBeyondLimit, isMissing, type NumberFormat, parseNumber } from "./number-format";
import { findOwnTimes } from "./own-times";
import { isPlausible } from "./plausible-values";
import { noTable } from "./refuse";
import { type CellFormat, splitRow } from "./row-cells";
import { countsRows } from "./row-numbers";
import type { Survey, TextLine } from "./survey";
import { tablesAbove } from "./table-above";
import { type PlannedColumn, questionsOf, type TablePlan } from "./table-plan";

export type PlanReading = { readonly plan: TablePlan; readonly questions: readonly ImportQuestion[]; readonly head: readonly TextRow[] };

const HEAD_ROWS = 800;
/** So many lines from further on say what the rest of the head would. */
const ENOUGH_LATER = 200;
const PIECES = 6;
const PIECE_LINES = 48;
const FLOAT32_INTEGER = 2 ** 24;

/**
 * Settles how a file is read: cells and numbers, where the table is, what its columns are and how its clock runs.
 * @throws ImportError where there is no table, no row of data, no clock or no value
 */
export function makePlan(file: string, survey: Survey, choices: ImportChoices): PlanReading {
  const { cells, rows, loose } = findTable(file, survey);
  const rest = survey.later.length < ENOUGH_LATER ? piecesOf(survey.head.slice(HEAD_ROWS)) : [];
  const later = [...rest, ...survey.later].map((text) => splitRow(text, cells));
  const sample = columnsOf([...loose.rows.slice(loose.firstData).map((row) => row.cells), ...later], loose.signature.count);
  const texts = (format: NumberFormat) => readTexts(rows, format, later, cells);
  const plausible = (format: NumberFormat) => {
    const table = texts(format);
    if (table === null) return false;
    const readings = readColumns(table.columns, contextOf(file, table, format), choices);
    return readings.every((reading, i) => isPlausible(table.columns[i], reading, format));
  };
  const { format, question } = findNumberFormat(sample, cells.separator, choices.answers.decimal, plausible);
  const table = texts(format);
  if (table === null) throw new ImportError(noTable(file, rows));
  const { plan, questions } = planTable(file, table, cells, format, choices);
  return { plan, questions: [...(question === null ? [] : [question]), ...questions], head: rows };
}

/** Some stretches of whole lines out of the rest of the head: what a file has only further down shows in them. */
function piecesOf(lines: readonly TextLine[]): readonly string[] {
  const stride = Math.max(PIECE_LINES, Math.floor(lines.length / PIECES));
  return lines.flatMap(({ text }, i) => (i % stride < PIECE_LINES && text.trim() !== "" ? [text] : []));
}

const columnsOf = (rows: readonly (readonly string[])[], count: number): string[][] =>
  Array.from({ length: count }, (_, column) => rows.flatMap((cells) => cells[column] ?? []));

/** Cells and the place of the table, numbers being read loosely. */
function findTable(file: string, survey: Survey): { cells: CellFormat; rows: readonly TextRow[]; loose: HeadTable } {
  const lines = survey.head.slice(0, HEAD_ROWS);
  let cells = findCellFormat(survey.head);
  let rows = splitRows(lines, cells);
  const stamps = findCutStamps(rows, cells);
  if (stamps !== null) {
    cells = stamps;
    rows = splitRows(lines, cells);
  }
  const labels = findLabels(rows);
  if (labels !== null) {
    cells = { ...cells, labels };
    rows = splitRows(lines, cells);
  }
  let loose = looseTable(rows);
  if (loose === null) throw new ImportError(noTable(file, rows));
  const pairs = findDecimalPairs(loose, cells);
  if (pairs !== null) {
    cells = pairs;
    rows = splitRows(lines, cells);
    loose = looseTable(rows) ?? loose;
  }
  return { cells, rows, loose };
}

const looseTable = (rows: readonly TextRow[]) =>
  findHeadTable(rows, { decimal: ".", thousands: "," }) ?? findHeadTable(rows, { decimal: ",", thousands: "." });

type TableTexts = {
  readonly head: HeadTable;
  readonly dialect: ReturnType<typeof findDialect>["dialect"];
  readonly layout: ReturnType<typeof findDialect>["layout"];
  readonly columns: readonly ColumnText[];
};

function readTexts(
  rows: readonly TextRow[],
  format: NumberFormat,
  later: readonly (readonly string[])[],
  { labels = [], separator }: CellFormat,
): TableTexts | null {
  const found = findHeadTable(rows, format);
  if (found === null) return null;
  const { dialect, layout } = findDialect(found);
  const [heading] = layout.headingRows;
  const placed = separator.kind === "spaces" && layout.unitRow !== null && layout.headingRows.length === 1;
  const head = placed ? alignUnits(found, heading, layout.unitRow) : found;
  const headings = headingsOf(head, layout).map((heading, i) => (heading === "" ? (labels[i] ?? "") : heading));
  return { head, dialect, layout, columns: withUnitColumns(columnTexts(head, headings, layout.unitRow, later, format)) };
}

const contextOf = (file: string, { head, layout }: TableTexts, format: NumberFormat): FileContext => ({
  file,
  preamble: preambleOf(head, layout),
  decimal: format.decimal,
  thousands: format.thousands,
});

function planTable(file: string, table: TableTexts, cells: CellFormat, numbers: NumberFormat, choices: ImportChoices) {
  const { head, dialect, layout, columns: texts } = table;
  const context = contextOf(file, table, numbers);
  const readings = readColumns(texts, context, choices);
  const guessed = layout.headingRows.length === 0 && readClock(texts, context, choices) === null ? unnamedClock(texts, numbers) : null;
  const clock =
    readClock(texts, context, guessed === null ? choices : withTime(choices, guessed.heading)) ??
    (hasNoTime(texts, readings, layout.headingRows.length > 0) ? countRows(texts, context, choices) : null);
  const headings = texts.map((text) => text.heading);
  const row = head.rows[head.firstData].line;
  if (clock === null) {
    throw new ImportError(
      texts.length === 1 ? { id: "one-column", file, row, heading: headings[0] } : { id: "no-time-column", file, row, headings },
    );
  }
  const named = findDevices(texts, clock);
  const found = findLongForm(texts, clock, numbers);
  // A value whose own heading says what it is, beside the names of devices, is no long form of many quantities.
  const long =
    found !== null && named?.key === found.key && readings[found.value].role !== "other" && !saysValue(texts[found.value].heading)
      ? null
      : found;
  const devices = long === null ? named : null;
  const planned = texts.map((text, i) => planColumn(text, readings[i], clock.columns, numbers, long?.value ?? null));
  const columns = planned.map((column) => (column.index === devices?.key ? { ...column, use: "text" as const } : column));
  if (!columns.some((column) => column.use === "number")) throw new ImportError({ id: "no-values", file, row, headings });
  const data = head.rows.slice(head.firstData);
  const plan: TablePlan = {
    file,
    context,
    cells,
    numbers,
    dialect: long !== null ? "long-form" : devices === null ? dialect.id : "devices",
    columns,
    long,
    devices,
    groups: long === null && devices === null ? findOwnTimes(texts, columns, clock) : null,
    only: null,
    clock: withProvenPatterns(
      clock,
      texts[0].sample.map((_, at) => clock.columns.map((index) => texts[index].sample[at])),
    ),
    notes: [...tablesAbove(head, layout), ...(long === null ? texts.flatMap((text, i) => unreadColumn(text, columns[i])) : [])],
    firstLine: row,
    above: head.rows.slice(0, head.firstData),
    headingLines: layout.headingRows.map((at) => head.rows[at].line),
    unitLine: layout.unitRow === null ? null : head.rows[layout.unitRow].line,
    bytesPerRow: data.reduce((sum, { text }) => sum + text.length + 1, 0) / data.length,
    lastDecimals: fixedDecimals(texts[texts.length - 1], numbers),
  };
  return { plan, questions: long === null ? columns.flatMap(questionsOf) : [] };
}

function planColumn(
  text: ColumnText,
  found: ColumnReading,
  time: readonly number[],
  format: NumberFormat,
  longValue: number | null,
): PlannedColumn {
  const { index, heading, unitsCell, unitColumn = null } = text;
  const reading =
    found.role === "time" && !time.includes(index) && isNoClock(text) ? { ...NOTHING, reason: "it does not move with the rows" } : found;
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

/** Without headings: a first column of numbers that rise by one step is taken for elapsed seconds, and asked. */
function unnamedClock([first]: readonly ColumnText[], format: NumberFormat): ColumnText | null {
  const values = first.sample.slice(0, 500).map((cell) => parseNumber(cell, format));
  const step = values[1] - values[0];
  const even =
    values.length > 2 && step > 0 && values.every((value, i) => i === 0 || Math.abs(value - values[i - 1] - step) <= 0.01 * step);
  return even ? first : null;
}

/** Headings, one of them at least of a measured quantity, and none that is or speaks of a time: nobody will find a time column here. */
const hasNoTime = (texts: readonly ColumnText[], readings: readonly ColumnReading[], headed: boolean): boolean =>
  headed &&
  readings.some(({ role }) => role !== "other" && role !== "time") &&
  texts.every(({ heading }, i) => readings[i].role !== "time" && !namesTime(heading));

const withTime = (choices: ImportChoices, heading: string): ImportChoices => ({
  ...choices,
  columns: [...choices.columns, { heading, role: "time", unit: null }],
});

/** A column of digits that are no numbers in this file's form is left out, and that is said. */
function unreadColumn({ heading, sample }: ColumnText, column: PlannedColumn): ReadingNote[] {
  const filled = sample.filter((cell) => !isMissing(cell));
  const digits = filled.filter((cell) => /^[+-]?\d[\d.,' ]*$/.test(cell));
  if (column.use !== "text" || column.reading.role === "time" || digits.length * 2 <= filled.length || /^\d+$/.test(digits[0])) return [];
  return [
    { kind: "unread-column", text: `"${heading}" was left out: its cells ("${digits[0]}") are no numbers in the form of this file.` },
  ];
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

/** Decimals of a column that writes every number with the same; null where they differ or there are none. */
function fixedDecimals(text: ColumnText, { decimal }: NumberFormat): number | null {
  let fixed: number | null = null;
  // The last cell may be the one that is cut.
  for (const cell of text.sample.slice(0, -1)) {
    const at = cell.lastIndexOf(decimal);
    if (at < 0 || !/^\d+$/.test(cell.slice(at + 1))) {
      if (/\d/.test(cell)) return null;
      continue;
    }
    const decimals = cell.length - at - 1;
    if (fixed !== null && fixed !== decimals) return null;
    fixed = decimals;
  }
  return fixed;
}
