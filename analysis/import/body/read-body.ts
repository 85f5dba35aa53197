import { decodeText, plainBytes } from "../encoding";
import type { LogFile } from "../import-log";
import type { Survey } from "../survey";
import type { TablePlan } from "../table-plan";
import { RowLog } from "./row-log";
import { RowStore } from "./row-store";
import { TextRows } from "./text-rows";
import { wholeLines } from "./whole-lines";

export type Body = { readonly store: RowStore; readonly log: RowLog; readonly lastLine: number };
/** Called now and then with the rows and bytes read so far; throws to stop the reading. */
export type Watch = (rows: number, bytes: number) => void;

/** Reads all rows of a file by its plan. One pass, linear in the bytes. */
export async function readBody(file: LogFile, survey: Survey, plan: TablePlan, watch: Watch): Promise<Body> {
  const estimate = Math.ceil((file.bytes / Math.max(2, plan.bytesPerRow)) * 1.02) + 16;
  const store = new RowStore(
    Math.min(estimate, file.bytes),
    plan.columns.filter((column) => column.use === "number").map((column) => column.wide),
  );
  const log = new RowLog(plan);
  const rows = new TextRows(plan, store, log);
  const chunks = plainBytes(file.open(), survey.encoding);
  let line = 0;
  let bytes = 0;
  let ended = true;
  for await (const block of wholeLines(chunks, survey.carriageReturns)) {
    let at = block.from;
    while (at < block.to) {
      line++;
      const found = block.bytes.indexOf(10, at);
      const end = found < 0 || found >= block.to ? block.to : found;
      ended = end < block.to;
      if (line >= plan.firstLine) {
        if (block.cut)
          log.reject(line, decodeText(block.bytes.subarray(at, at + 80), survey.encoding.encoding), "the line is longer than a row can be");
        else rows.takeLine(decodeText(withoutReturn(block.bytes, at, end), survey.encoding.encoding), line);
      }
      at = end + 1;
    }
    bytes += block.to - block.from;
    watch(store.count, bytes);
  }
  rows.finish(!ended);
  return { store, log, lastLine: line };
}

function withoutReturn(bytes: Uint8Array, from: number, end: number): Uint8Array {
  let to = end;
  while (to > from && bytes[to - 1] === 13) to--;
  return bytes.subarray(from, to);
}
