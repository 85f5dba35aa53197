import { isNarrow } from "../encoding";
import type { ImportChoices, LogFile } from "../import-log";
import { makePlan } from "../make-plan";
import { type Survey, surveyFile } from "../survey";
import type { TablePlan } from "../table-plan";
import { PlainRows } from "./plain-rows";
import { RowStore, type Samples } from "./row-store";
import type { TimesPart } from "./row-times";

/** Plain rows of a part of a file, read apart from the rest: where nothing but arrays can be handed over. */
export type PlainPart = {
  readonly rows: number;
  /** Bytes of these rows; what follows them is no plain row, or the end. */
  readonly bytes: number;
  readonly times: TimesPart;
  /** SI, shape [rows] each. */
  readonly values: readonly Samples[];
};

const LF = 10;
const PIECE = 1024 * 1024;

/** Whether rows in the middle of a file can be read without those before them. */
export const canReadApart = (plan: TablePlan, survey: Survey): boolean =>
  PlainRows.canRead(plan) &&
  plan.groups === null &&
  !survey.carriageReturns &&
  (survey.encoding.encoding === "utf-8" || isNarrow(survey.encoding.encoding));

/**
 * Reads plain rows from a place on where a line begins, by a plan made anew from the head of the file: the same as the reader of the first part made.
 * It stops before the first row that is not plain. @returns null where the file cannot be read so
 */
export async function readPlainPart(file: LogFile, from: number, choices: ImportChoices): Promise<PlainPart | null> {
  const { slice } = file;
  const survey = await surveyFile(file);
  const { plan } = makePlan(file.name, survey, choices);
  if (slice === undefined || !canReadApart(plan, survey)) return null;
  const wide = plan.columns.filter(({ use }) => use === "number").map((column) => column.wide);
  const store = new RowStore(Math.ceil(((file.bytes - from) / Math.max(2, plan.bytesPerRow)) * 1.02) + 16, wide);
  const plain = new PlainRows(plan, store, survey.encoding.encoding);
  let at = from;
  let coming = slice(at, at + PIECE);
  for (;;) {
    const bytes = await coming;
    const whole = bytes.lastIndexOf(LF) + 1;
    if (whole === 0) break;
    if (at + whole < file.bytes) coming = slice(at + whole, at + whole + PIECE);
    const end = plain.take(bytes, 0, whole);
    at += end;
    if (end < whole || at >= file.bytes) break;
  }
  return { rows: store.count, bytes: at - from, times: store.times.part(), values: store.values.map((v) => v.slice(0, store.count)) };
}
