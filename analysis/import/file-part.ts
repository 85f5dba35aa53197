import type { Clock } from "../../shared/record/clock";
import type { FileLayout } from "../../shared/record/file-layout";
import type { ImportQuestion } from "../../shared/record/import-question";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, ColumnNote, RecordFile, RejectedRow, RowOrigin } from "../../shared/record/log-record";
import type { ReadingNote } from "../../shared/wording/reading-note";
import type { DateOrder } from "./clock/stamp";

/** One file read by itself; times are seconds after its own first instant. */
export type FilePart = {
  readonly file: RecordFile;
  readonly clock: Clock;
  readonly duration: number;
  readonly channels: readonly Channel[];
  readonly columns: readonly ColumnNote[];
  readonly origins: readonly RowOrigin[];
  readonly rows: { readonly accepted: number; readonly rejected: number; readonly duplicate: number; readonly reordered: number };
  readonly rejects: readonly RejectedRow[];
  readonly questions: readonly ImportQuestion[];
  readonly notes: readonly ReadingNote[];
  readonly faults: readonly LogFault[];
  /** The order of day and month where this file settles it by itself. */
  readonly dateOrder: DateOrder | null;
  readonly layout: FileLayout;
};
