import { decodeText, plainBytes, withoutNul } from "../encoding";
import type { LogFile } from "../import-log";
import type { LongForm } from "../long-form";
import type { Survey } from "../survey";
import type { TablePlan } from "../table-plan";
import { LongStore } from "./long-store";
import { PlainRows } from "./plain-rows";
import { ReadingSketch, type SketchedColumn } from "./reading-sketch";
import { RowLog } from "./row-log";
import type { RowSink } from "./row-sink";
import { RowStore } from "./row-store";
import { TextRows } from "./text-rows";
import { type LineBlock, wholeLines } from "./whole-lines";

const LF = 10;

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
): Promise<Body> {
  const estimate = Math.ceil((file.bytes / Math.max(2, plan.bytesPerRow)) * 1.02) + 16;
  const wide = plan.columns.filter((column) => column.use === "number").map((column) => column.wide);
  const store = new RowStore(Math.min(estimate, file.bytes), wide);
  const plain = way === "bytes" && PlainRows.canRead(plan) ? new PlainRows(plan, store, survey.encoding.encoding) : null;
  return readRows(file, survey, plan, watch, store, plain);
}

/** Reads a file in long form. */
export function readLongBody(file: LogFile, survey: Survey, plan: TablePlan, form: LongForm, watch: Watch): Promise<Body<LongStore>> {
  return readRows(file, survey, plan, watch, new LongStore(form), null);
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
  const sketch =
    store instanceof RowStore
      ? new ReadingSketch(
          plan.columns.filter(({ use }) => use === "number"),
          store,
          file.bytes,
        )
      : null;
  let bytes = 0;
  for await (const block of wholeLines(plainBytes(file.open(), survey.encoding), survey.carriageReturns)) {
    reader.take(block);
    bytes += block.to - block.from;
    watch(store.count, bytes, () => sketch?.upTo(bytes) ?? []);
  }
  rows.finish();
  return { store, log, lastLine: reader.line };
}

/** Walks the lines of each block: plain rows by their bytes, the others as text. */
class BlockReader {
  /** Lines passed so far. */
  line = 0;
  private ended = true;

  constructor(
    private readonly plan: TablePlan,
    private readonly survey: Survey,
    private readonly log: RowLog,
    private readonly rows: TextRows,
    private readonly plain: PlainRows | null,
  ) {}

  take(block: LineBlock): void {
    const whole = block.bytes.lastIndexOf(LF, block.to - 1) + 1;
    let at = this.skipAbove(block);
    while (at < block.to) {
      if (this.plain !== null && at < whole && !block.cut && !this.rows.wantsNext) {
        at = this.takePlain(this.plain, block.bytes, at, whole);
        if (at >= block.to) return;
      }
      at = this.takeText(block, at);
    }
  }

  private takePlain(plain: PlainRows, bytes: Uint8Array, from: number, to: number): number {
    const at = plain.take(bytes, from, to);
    if (plain.taken > 0) {
      this.log.data();
      plain.store.lines.pushRun(this.line + 1, plain.taken);
      this.line += plain.taken;
    }
    return at;
  }

  private takeText(block: LineBlock, at: number): number {
    const { encoding } = this.survey.encoding;
    this.line++;
    const end = this.lineEnd(block, at);
    if (block.cut)
      this.log.reject(this.line, decodeText(block.bytes.subarray(at, at + 80), encoding), "the line is longer than a row can be");
    else this.rows.takeLine(decodeText(withoutReturn(withoutNul(block.bytes.subarray(at, end))), encoding), this.line, !this.ended);
    return end + 1;
  }

  /** Passes the lines above the data. */
  private skipAbove(block: LineBlock): number {
    let at = block.from;
    while (at < block.to && this.line + 1 < this.plan.firstLine) {
      this.line++;
      at = this.lineEnd(block, at) + 1;
    }
    return at;
  }

  private lineEnd(block: LineBlock, at: number): number {
    const found = block.bytes.indexOf(LF, at);
    this.ended = found >= 0 && found < block.to;
    return this.ended ? found : block.to;
  }
}

function withoutReturn(bytes: Uint8Array): Uint8Array {
  let to = bytes.length;
  while (to > 0 && bytes[to - 1] === 13) to--;
  return bytes.subarray(0, to);
}
