import { ImportError } from "../../shared/problems/import-problem";
import type { ImportQuestion } from "../../shared/record/import-question";
import { withProvenPatterns } from "./body/calibrate-stamps";
import { cellKind } from "./cell-kind";
import { readClock } from "./clock/read-clock";
import type { ColumnText, FileContext } from "./columns/column-reading";
import { readColumns } from "./columns/read-columns";
import { findDialect } from "./dialects";
import { findCellFormat, splitRows, type TextRow } from "./find-format";
import { findNumberFormat } from "./find-number-format";
import { findHeadTable, type HeadTable, matchesSignature } from "./head-table";
import type { ImportChoices } from "./import-log";
import { isMissing, parseNumber } from "./number-format";
import { splitRow } from "./row-cells";
import type { Survey } from "./survey";
import type { PlannedColumn, TablePlan } from "./table-plan";

export type PlanReading = { readonly plan: TablePlan; readonly questions: readonly ImportQuestion[]; readonly head: readonly TextRow[] };

const HEAD_ROWS = 3000;
const SAMPLE_ROWS = 4000;
const FLOAT32_INTEGER = 2 ** 24;

/**
 * Settles how a file is read: cells and numbers, where the table is, what its columns are and how its clock runs.
 * @throws ImportError where there is no table, no row of data, no clock or no value
 */
export function makePlan(file: string, survey: Survey, choices: ImportChoices): PlanReading {
  const cellFormat = findCellFormat(survey.head);
  const rows = splitRows(survey.head.slice(0, HEAD_ROWS), cellFormat);
  const loose = findHeadTable(rows, { decimal: ".", thousands: "," }) ?? findHeadTable(rows, { decimal: ",", thousands: "." });
  if (loose === null) throw new ImportError(noTable(file, rows));
  const body = loose.rows.slice(loose.firstData);
  const later = survey.later.slice(0, SAMPLE_ROWS).map((text) => splitRow(text, cellFormat));
  const cells = [...body.slice(0, 1000).map((row) => row.cells), ...later].flat();
  const { format, question } = findNumberFormat(cells, cellFormat.separator, choices.answers.decimal);
  const head = findHeadTable(rows, format);
  if (head === null) throw new ImportError(noTable(file, rows));
  const { dialect, layout } = findDialect(head);
  const texts = columnTexts(head, layout.headings ?? headingsOf(head, layout.headingRows), layout.unitRow, later);
  const context: FileContext = {
    file,
    preamble: preambleOf(head, layout.headingRows, layout.unitRow),
    decimal: format.decimal,
    thousands: format.thousands,
  };
  const readings = readColumns(texts, context, choices);
  const clock = readClock(texts, context, choices);
  const headings = texts.map((text) => text.heading);
  const firstLine = rows[head.firstData].line;
  if (clock === null) {
    throw new ImportError(
      texts.length === 1
        ? { id: "one-column", file, row: firstLine, heading: headings[0] }
        : { id: "no-time-column", file, row: firstLine, headings },
    );
  }
  const columns = texts.map((text, i): PlannedColumn => {
    const { index, heading, unitsCell } = text;
    const reading = readings[i];
    const use = clock.columns.includes(index)
      ? "time"
      : reading.role !== "time" && isNumeric(text, reading.words, format)
        ? "number"
        : "text";
    return { index, heading, unitsCell, reading, use, wide: use === "number" && needsFloat64(text, reading, format) };
  });
  if (!columns.some((column) => column.use === "number")) throw new ImportError({ id: "no-values", file, row: firstLine, headings });
  const data = rows.slice(head.firstData);
  const bytesPerRow = data.reduce((sum, row) => sum + row.text.length + 1, 0) / data.length;
  const plan: TablePlan = {
    file,
    cells: cellFormat,
    numbers: format,
    dialect: dialect.id,
    columns,
    clock: withProvenPatterns(
      clock,
      texts[0].sample.map((_, row) => clock.columns.map((index) => texts[index].sample[row])),
    ),
    firstLine,
    above: rows.slice(0, head.firstData),
    headingLines: layout.headingRows.map((row) => rows[row].line),
    unitLine: layout.unitRow === null ? null : rows[layout.unitRow].line,
    bytesPerRow,
  };
  const columnQuestions = columns.flatMap((column) => (column.use === "number" ? column.reading.questions : []));
  return { plan, questions: [...(question === null ? [] : [question]), ...columnQuestions], head: rows };
}

function noTable(file: string, rows: readonly TextRow[]): ConstructorParameters<typeof ImportError>[0] {
  const filled = rows.filter((row) => row.cells.filter((cell) => cell !== "").length > 1);
  const last = filled[filled.length - 1];
  if (last?.cells.every((cell) => !/^[\d.,:+-]+$/.test(cell))) return { id: "header-only", file, row: last.line, headings: last.cells };
  return { id: "no-table", file, row: rows[0]?.line ?? 1 };
}

/** Headings of one or several rows, joined column by column. */
function headingsOf(head: HeadTable, headingRows: readonly number[]): string[] {
  const count = head.signature.count;
  return Array.from({ length: count }, (_, column) =>
    headingRows
      .map((row) => head.rows[row].cells[column] ?? "")
      .filter((cell) => cell !== "")
      .join(" "),
  );
}

/** Columns with their samples; a last column that is nothing but the trailing delimiter is left out. */
function columnTexts(
  head: HeadTable,
  headings: readonly string[],
  unitRow: number | null,
  later: readonly (readonly string[])[],
): ColumnText[] {
  const { signature } = head;
  const near = head.rows.filter((_, i) => i >= head.firstData && matchesSignature(head.kinds[i], signature)).map((row) => row.cells);
  const far = later.filter((cells) => cells.length === signature.count);
  const rows = [...near, ...far].slice(0, SAMPLE_ROWS);
  const texts = Array.from(
    { length: signature.count },
    (_, index): ColumnText => ({
      index,
      heading: (headings[index] ?? "") === "" ? `column ${index + 1}` : headings[index],
      unitsCell: unitRow === null ? null : (head.rows[unitRow].cells[index] ?? ""),
      sample: rows.map((cells) => cells[index] ?? ""),
    }),
  );
  while (texts.length > 1 && (headings[texts.length - 1] ?? "") === "" && texts[texts.length - 1].sample.every((cell) => cell === ""))
    texts.pop();
  return texts;
}

function preambleOf(head: HeadTable, headingRows: readonly number[], unitRow: number | null): string[] {
  return head.rows
    .slice(0, head.firstData)
    .flatMap((row, i) => (headingRows.includes(i) || i === unitRow || row.text.trim() === "" ? [] : [row.text]));
}

/** At least half of what is not missing is a number, or a word that stands for one. */
function isNumeric(text: ColumnText, words: ReadonlyMap<string, number>, format: TablePlan["numbers"]): boolean {
  let numbers = 0;
  let filled = 0;
  for (const cell of text.sample) {
    if (isMissing(cell)) continue;
    filled++;
    if (words.has(cell.toLowerCase()) || !Number.isNaN(parseNumber(cell, format))) numbers++;
  }
  return filled === 0 ? text.sample.length > 0 : numbers * 2 >= filled;
}

/** More digits than a Float32 keeps: totalisers, counters, large numbers with a fraction. */
function needsFloat64(text: ColumnText, reading: PlannedColumn["reading"], format: TablePlan["numbers"]): boolean {
  if (reading.role === "volume" || reading.counter !== null) return true;
  return text.sample.some((cell) => cellKind(cell, format) === "number" && Math.abs(parseNumber(cell, format)) >= FLOAT32_INTEGER);
}
