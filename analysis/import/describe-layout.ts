import type { FileLayout, LineKind } from "../../shared/record/file-layout";
import type { Body } from "./body/read-body";
import type { RowLog } from "./body/row-log";
import type { RowSink } from "./body/row-sink";
import { RowStore } from "./body/row-store";
import type { TextRow } from "./find-format";
import { type Separator, splitRow } from "./row-cells";
import type { Survey } from "./survey";
import type { PlannedColumn, TablePlan } from "./table-plan";

const LINES_SHOWN = 40;
const DATA_LINES_SHOWN = 20;
const LAST_LINES = 6;
const WIDEST_LINE = 400;
const PICTURE_POINTS = 60;

/** How one file was understood, for the page. */
export function describeLayout(plan: TablePlan, survey: Survey, head: readonly TextRow[], body: Body<RowSink>): FileLayout {
  const samples = body.store instanceof RowStore ? body.store : null;
  return {
    file: plan.file,
    encoding: survey.encoding.encoding,
    delimiter: separatorName(plan.cells.separator),
    decimal: plan.numbers.decimal,
    thousands: plan.numbers.thousands,
    dialect: plan.dialect,
    lines: [...shownLines(plan, head, body.log), ...lastLines(plan, survey, head, body)],
    columns: plan.columns.map((column) => describeColumn(column, plan, samples)),
    clock: plan.clock.description,
    signature: JSON.stringify(plan.columns.map((column) => column.heading)),
  };
}

const separatorName = (separator: Separator) =>
  separator.kind === "character" ? separator.character : separator.kind === "spaces" ? "spaces" : "fixed-width";

function shownLines(plan: TablePlan, head: readonly TextRow[], log: RowLog): FileLayout["lines"] {
  return head.slice(0, shownCount(plan, head)).map((row) => showLine(row, plan, log));
}

function shownCount(plan: TablePlan, head: readonly TextRow[]): number {
  const above = head.filter((row) => row.line < plan.firstLine).length;
  return Math.min(head.length, Math.max(LINES_SHOWN, above + DATA_LINES_SHOWN));
}

/** The last few lines, as far as they are not among the first ones. */
function lastLines(plan: TablePlan, survey: Survey, head: readonly TextRow[], { log, lastLine }: Body<RowSink>): FileLayout["lines"] {
  const shown = shownCount(plan, head);
  const tail = survey.complete ? head.slice(Math.max(shown, head.length - LAST_LINES)) : [];
  const far = survey.tail.map((text, i) => ({ line: lastLine - survey.tail.length + 1 + i, text, cells: splitRow(text, plan.cells) }));
  return [...tail, ...far].map((row) => showLine(row, plan, log));
}

function showLine(row: TextRow, plan: TablePlan, log: RowLog): FileLayout["lines"][number] {
  const kind = lineKind(row, plan, log);
  const cells = kind === "data" || kind === "heading" || kind === "units" ? row.cells : null;
  return { line: row.line, text: row.text.slice(0, WIDEST_LINE), kind, cells };
}

function lineKind(row: TextRow, plan: TablePlan, log: RowLog): LineKind {
  if (plan.headingLines.includes(row.line)) return "heading";
  if (plan.unitLine === row.line) return "units";
  if (row.text.trim() === "") return "blank";
  if (row.line < plan.firstLine) return "preamble";
  return log.kinds.get(row.line) ?? log.latest.get(row.line) ?? "data";
}

/** A vacuum counts downwards. */
const rangeInFile = (a: number, b: number) => ({ low: Math.min(a, b), high: Math.max(a, b) });

function describeColumn(column: PlannedColumn, plan: TablePlan, store: RowStore | null): FileLayout["columns"][number] {
  const { heading, index, reading } = column;
  const at = plan.columns.filter((other) => other.use === "number").indexOf(column);
  const values = at < 0 || store === null ? null : store.values[at].subarray(0, store.count);
  const extremes = at < 0 || store === null ? null : store.extremes(at);
  const inFile = (si: number) => Number(((si - reading.offset) / reading.factor).toPrecision(7));
  return {
    heading,
    index,
    role: column.use === "time" ? "time" : reading.role,
    unit: reading.unit,
    certainty: reading.certainty,
    reason: reading.reason,
    range: extremes === null ? null : rangeInFile(inFile(extremes.low), inFile(extremes.high)),
    picture: values === null ? [] : pictureOf(values, inFile),
    unitOptions: reading.unitOptions,
  };
}

/**
 * Every value of a short column; of a longer one the least and the greatest of each stretch in the order they come, since picked values would show a
 * swing that is not there, or hide one.
 */
function pictureOf(values: Float32Array | Float64Array, inFile: (si: number) => number): (number | null)[] {
  const shown = (value: number) => (Number.isNaN(value) ? null : inFile(value));
  if (values.length <= PICTURE_POINTS) return Array.from(values, shown);
  const stretches = PICTURE_POINTS / 2;
  const edge = (k: number) => Math.floor((k * values.length) / stretches);
  return Array.from({ length: stretches }, (_, k) => extremesIn(values, edge(k), edge(k + 1)).map(shown)).flat();
}

/** The least and the greatest value from one place to before another, the earlier first; NaN twice where none is there. */
function extremesIn(values: Float32Array | Float64Array, from: number, to: number): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let isLowFirst = true;
  for (let i = from; i < to; i++) {
    const value = values[i];
    if (value < low) {
      low = value;
      isLowFirst = false;
    }
    if (value > high) {
      high = value;
      isLowFirst = true;
    }
  }
  if (low > high) return [Number.NaN, Number.NaN];
  return isLowFirst ? [low, high] : [high, low];
}
