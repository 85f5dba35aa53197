import { plainBytes } from "../encoding";
import { type ImportChoices, NO_CHOICES } from "../import-choices";
import type { LogFile } from "../import-log";
import type { LongForm } from "../long-form";
import type { Survey } from "../survey";
import type { TablePlan } from "../table-plan";
import type { TimesAcross } from "../times-across";
import { AcrossStore } from "./across-store";
import { BlockReader } from "./block-reader";
import { DeviceStore } from "./device-store";
import { LongStore } from "./long-store";
import { canReadApart } from "./plain-part";
import { PlainRows } from "./plain-rows";
import { readInTwo } from "./read-in-two";
import { type SketchedColumn, sketchOf } from "./reading-sketch";
import { RowLog } from "./row-log";
import type { RowSink } from "./row-sink";
import { RowStore } from "./row-store";
import { TextRows } from "./text-rows";
import { wholeLines } from "./whole-lines";

export type Body<Sink extends RowSink = RowStore> = { readonly store: Sink; readonly log: RowLog; readonly lastLine: number };
/** Called now and then with the rows and bytes read so far, and what they look like where one asks; throws to stop the reading. */
export type Watch = (rows: number, bytes: number, sketch: () => readonly SketchedColumn[]) => void;

/**
 * Reads all rows of a file by its plan. One pass, linear in the bytes.
 * @param way "text" reads every row as text: the yardstick for the byte reader
 */
export async function readBody(
  file: LogFile,
  survey: Survey,
  plan: TablePlan,
  watch: Watch,
  way: "bytes" | "text" = "bytes",
  choices: ImportChoices = NO_CHOICES,
): Promise<Body> {
  const estimate = Math.ceil((file.bytes / Math.max(2, plan.bytesPerRow)) * 1.02) + 16;
  const wide = plan.columns.filter((column) => column.use === "number").map((column) => column.wide);
  const store = new RowStore(Math.min(estimate, file.bytes), wide);
  const plain = way === "bytes" && PlainRows.canRead(plan) ? new PlainRows(plan, store, survey.encoding.encoding) : null;
  const { slice, readTail } = file;
  const sketch = sketchOf(plan, store, file.bytes);
  if (plain !== null && slice !== undefined && readTail !== undefined && canReadApart(plan, survey)) {
    const log = new RowLog(plan);
    const rows = new TextRows(plan, store, log);
    const reader = new BlockReader(plan, survey, log, rows, plain);
    await readInTwo({ bytes: file.bytes, slice, readTail: (from) => readTail(from, choices) }, survey, rows, reader, (bytes) =>
      watch(store.count, bytes, () => sketch.upTo(bytes)),
    );
    return { store, log, lastLine: reader.line };
  }
  return readRows(file, survey, plan, watch, store, plain);
}

/** Reads a file in long form. */
export function readLongBody(file: LogFile, survey: Survey, plan: TablePlan, form: LongForm, watch: Watch): Promise<Body<LongStore>> {
  return readRows(file, survey, plan, watch, new LongStore(form), null);
}

/** Reads a file with the rows of several devices. */
export function readDeviceBody(file: LogFile, survey: Survey, plan: TablePlan, key: number, watch: Watch): Promise<Body<DeviceStore>> {
  const wide = plan.columns.filter((column) => column.use === "number").map((column) => column.wide);
  return readRows(file, survey, plan, watch, new DeviceStore(key, wide), null);
}

/** Reads a file of several instants a row. */
export async function readAcrossBody(
  file: LogFile,
  survey: Survey,
  plan: TablePlan,
  across: TimesAcross,
  watch: Watch,
): Promise<Body<AcrossStore>> {
  const wide = plan.columns.some((column) => column.use === "number" && column.wide);
  const body = await readRows(file, survey, plan, watch, new AcrossStore(across, wide), null);
  body.store.finish();
  return body;
}

async function readRows<Sink extends RowSink>(
  file: LogFile,
  survey: Survey,
  plan: TablePlan,
  watch: Watch,
  store: Sink,
  plain: PlainRows | null,
): Promise<Body<Sink>> {
  const log = new RowLog(plan);
  const rows = new TextRows(plan, store, log);
  const reader = new BlockReader(plan, survey, log, rows, plain);
  const sketch = store instanceof RowStore ? sketchOf(plan, store, file.bytes) : null;
  let bytes = 0;
  for await (const block of wholeLines(plainBytes(file.open(), survey.encoding), survey.carriageReturns)) {
    reader.take(block);
    bytes += block.to - block.from;
    watch(store.count, bytes, () => sketch?.upTo(bytes) ?? []);
  }
  rows.finish();
  return { store, log, lastLine: reader.line };
}
