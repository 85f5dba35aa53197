import { ImportError } from "../../shared/problems/import-problem";
import type { ImportQuestion } from "../../shared/record/import-question";
import { alignUnits } from "./align-words";
import { withProvenPatterns } from "./body/calibrate-stamps";
import { cellKind } from "./cell-kind";
import { countRows, readClock } from "./clock/read-clock";
import { columnTexts, headingsOf, preambleOf } from "./column-texts";
import type { ColumnReading, ColumnText, FileContext } from "./columns/column-reading";
import { numberedNames } from "./columns/preamble-channels";
import { withQualities } from "./columns/quality-column";
import { readColumns } from "./columns/read-columns";
import { withUnitColumns } from "./columns/unit-column";
import { findCutStamps } from "./cut-stamps";
import { findDecimalPairs } from "./decimal-pairs";
import { findDevices } from "./devices";
import { findDialect } from "./dialects";
import { namesTime } from "./dialects/heading-rows";
import { inFirstOrder } from "./exchanged-columns";
import { findCellFormat, splitRows, type TextRow } from "./find-format";
import { findNumberFormat } from "./find-number-format";
import { findHeadTable, type HeadTable, matchesSignature } from "./head-table";
import type { ImportChoices } from "./import-log";
import { findLabels } from "./labelled-cells";
import { findLongForm, saysValue } from "./long-form";
import { type NumberFormat, parseNumber } from "./number-format";
import { findOwnTimes } from "./own-times";
import { fixedDecimals, planColumn, unreadColumn } from "./plan-columns";
import { isPlausible } from "./plausible-values";
import { noTable } from "./refuse";
import { type CellFormat, splitRow } from "./row-cells";
import type { Survey, TextLine } from "./survey";
import { tablesAbove } from "./table-above";
import { questionsOf, type TablePlan } from "./table-plan";
import { clockAcross, columnsAcross, findTimesAcross, noteAcross } from "./times-across";
import { toldDecimal } from "./told-decimal";
import { withUnitsJoined } from "./units-apart";
import { unreadLines } from "./unread-lines";

export type PlanReading = { readonly plan: TablePlan; readonly questions: readonly ImportQuestion[]; readonly head: readonly TextRow[] };

const HEAD_ROWS = 800;
/** So many lines from further on say what the rest of the head would. */
const ENOUGH_LATER = 200;
const PIECES = 6;
const LAST_LINES = 6;
const PIECE_LINES = 48;

/**
 * Settles how a file is read: cells and numbers, where the table is, what its columns are and how its clock runs.
 * @throws ImportError where there is no table, no row of data, no clock or no value
 */
export function makePlan(file: string, survey: Survey, choices: ImportChoices): PlanReading {
  const { cells, rows, ordered, loose, exchanged } = findTable(file, survey);
  const rest = survey.later.length < ENOUGH_LATER ? piecesOf(survey.head.slice(HEAD_ROWS)) : [];
  const later = (exchanged ? [] : [...rest, ...survey.later]).map((text) => splitRow(text, cells));
  const sample = columnsOf([...loose.rows.slice(loose.firstData).map((row) => row.cells), ...later], loose.signature.count);
  const told = toldDecimal(loose.rows.slice(0, loose.firstData).map(({ text }) => text)) ?? undefined;
  const last = survey.complete ? survey.head.slice(-LAST_LINES).map(({ text }) => text) : survey.tail;
  const texts = (format: NumberFormat) => readTexts(ordered, format, later, cells, last);
  const plausible = (format: NumberFormat) => {
    const table = texts(format);
    if (table === null) return false;
    const readings = readColumns(table.columns, contextOf(file, table, format), choices);
    return readings.every((reading, i) => isPlausible(table.columns[i], reading, format));
  };
  const { format, question } = findNumberFormat(sample, cells.separator, choices.answers.decimal ?? told, plausible);
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
  Array.from({ length: count }, (_, column) => rows.filter((cells) => column < cells.length).map((cells) => cells[column]));

type FoundTable = {
  readonly cells: CellFormat;
  readonly rows: readonly TextRow[];
  /** With the cells of every row in the order of the first headings. */
  readonly ordered: readonly TextRow[];
  readonly exchanged: boolean;
  readonly loose: HeadTable;
};

/** Cells and the place of the table, numbers being read loosely. */
function findTable(file: string, survey: Survey): FoundTable {
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
  const { rows: ordered, exchanged } = inFirstOrder(withUnitsJoined(rows));
  const loose = looseTable(ordered);
  if (loose === null) throw new ImportError(noTable(file, rows));
  const pairs = findDecimalPairs(loose, cells);
  if (pairs === null) return { cells, rows, ordered, exchanged, loose };
  const paired = splitRows(lines, pairs);
  return { cells: pairs, rows: paired, ordered: paired, exchanged: false, loose: looseTable(paired) ?? loose };
}

const looseTable = (rows: readonly TextRow[]) =>
  findHeadTable(rows, { decimal: ".", thousands: "," }) ?? findHeadTable(rows, { decimal: ",", thousands: "." });

type TableTexts = {
  readonly head: HeadTable;
  readonly dialect: ReturnType<typeof findDialect>["dialect"];
  readonly layout: ReturnType<typeof findDialect>["layout"];
  readonly columns: readonly ColumnText[];
  /** Last lines of the file that are no rows of the table. */
  readonly below: readonly string[];
};

function readTexts(
  rows: readonly TextRow[],
  format: NumberFormat,
  later: readonly (readonly string[])[],
  cells: CellFormat,
  last: readonly string[],
): TableTexts | null {
  const { labels = [], separator } = cells;
  const found = findHeadTable(rows, format);
  if (found === null) return null;
  const { dialect, layout } = findDialect(found);
  const [heading] = layout.headingRows;
  const placed = separator.kind === "spaces" && layout.unitRow !== null && layout.headingRows.length === 1;
  const head = placed ? alignUnits(found, heading, layout.unitRow) : found;
  const told = layout.headingRows.length > 0 ? [] : numberedNames(preambleOf(head, layout), head.signature.count);
  const headings = headingsOf(head, layout).map((heading, i) => heading || labels[i] || told[i] || "");
  const isRow = (text: string) =>
    matchesSignature(
      splitRow(text, cells).map((cell) => cellKind(cell, format)),
      head.signature,
    );
  const below = last.filter((text) => text.trim() !== "" && !isRow(text));
  return { head, dialect, layout, below, columns: withUnitColumns(columnTexts(head, headings, layout.unitRow, later, format)) };
}

const contextOf = (file: string, { head, layout, below }: TableTexts, format: NumberFormat): FileContext => ({
  file,
  preamble: preambleOf(head, layout),
  below,
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
  const across = findTimesAcross(texts, clock, context.preamble, numbers);
  const named = across === null ? findDevices(texts, clock) : null;
  const found = across === null ? findLongForm(texts, clock, numbers) : null;
  // A value whose own heading says what it is, beside the names of devices, is no long form of many quantities.
  const long =
    found !== null && named?.key === found.key && readings[found.value].role !== "other" && !saysValue(texts[found.value].heading)
      ? null
      : found;
  const devices = long === null ? named : null;
  const planned = withQualities(
    texts.map((text, i) => planColumn(text, readings[i], clock.columns, numbers, long?.value ?? null)),
    texts,
  );
  const columns =
    across === null
      ? planned.map((column) => (column.index === devices?.key ? { ...column, use: "text" as const } : column))
      : columnsAcross(planned, texts, across, context, choices);
  if (!columns.some((column) => column.use === "number")) throw new ImportError({ id: "no-values", file, row, headings });
  const data = head.rows.slice(head.firstData);
  const plan: TablePlan = {
    file,
    context,
    cells,
    numbers,
    dialect: long !== null ? "long-form" : devices !== null ? "devices" : across === null ? dialect.id : "times-across",
    columns,
    long,
    devices,
    across,
    groups: long === null && devices === null && across === null ? findOwnTimes(texts, columns, clock) : null,
    only: null,
    clock: withProvenPatterns(
      across === null ? clock : clockAcross(clock, across),
      texts[0].sample.map((_, at) => clock.columns.map((index) => texts[index].sample[at])),
    ),
    notes: [
      ...tablesAbove(head, layout),
      ...unreadLines(texts, context),
      ...(cells.form === "repetition" ? [{ kind: "repetition" } as const] : []),
      ...(across === null ? [] : [noteAcross(across, texts, columns)]),
      ...(long === null ? texts.flatMap((text, i) => unreadColumn(text, columns[i])) : []),
    ],
    firstStamp: clock.columns.map((index) => head.rows[head.firstData].cells[index] ?? ""),
    firstLine: row,
    above: head.rows.slice(0, head.firstData),
    headingLines: layout.headingRows.map((at) => head.rows[at].line),
    unitLine: layout.unitRow === null ? null : head.rows[layout.unitRow].line,
    bytesPerRow: data.reduce((sum, { text }) => sum + text.length + 1, 0) / data.length,
    stampLength: commonLength(texts[clock.columns[0] ?? -1]?.sample ?? []),
    decimals: texts.map((text) => fixedDecimals(text, numbers)),
  };
  const asked = across === null ? columns : columns.filter(({ index }) => index === across.columns[0]);
  return { plan, questions: long === null ? asked.flatMap(questionsOf) : [] };
}

function commonLength(cells: readonly string[]): number | null {
  const lengths = new Set(cells.filter((cell) => cell !== "").map((cell) => cell.length));
  return lengths.size === 1 ? [...lengths][0] : null;
}

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
