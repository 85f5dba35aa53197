import type { Seconds } from "../units/quantity";
import type { ColumnReason } from "../wording/column-reason";
import type { ReadingNote } from "../wording/reading-note";
import type { RowRefusal } from "../wording/row-refusal";
import type { ChannelQuantity, ChannelRole } from "./channel-role";
import type { Clock } from "./clock";
import type { ImportQuestion } from "./import-question";
import type { LogFault } from "./log-fault";

/** When samples were taken, in seconds after the record's first instant; strictly rising. Channels of one file share one object. */
export type Sampling =
  | { readonly kind: "even"; readonly start: Seconds; readonly step: Seconds; readonly count: number }
  | { readonly kind: "listed"; readonly times: Float64Array } // shape [n], s
  | OnChange;

/** A value holds until the next, the last until `until`. */
export type OnChange = {
  readonly kind: "on-change";
  /** Shape [n], s. */
  readonly times: Float64Array;
  readonly until: Seconds;
  /** Instants of all rows of its file where it does not have a value in each: its logger looked at it then too, and it had not changed. Shape [m], s. */
  readonly rows?: Float64Array;
};

export type Channel = {
  /** As the file wrote it. */
  readonly heading: string;
  /** 0-based index of the column in its file. */
  readonly index: number;
  readonly role: ChannelRole;
  /** Told apart by position words of the heading ("tank", "pump", "discharge"), else null. */
  readonly position: string | null;
  /** As the file or the person said it, for the reader; values are SI already. Null where none was found. */
  readonly unitInFile: string | null;
  readonly quantity: ChannelQuantity;
  readonly sampling: Sampling;
  /** Shape [n], SI; NaN where missing. */
  readonly values: Float32Array | Float64Array;
  /** How sure role and unit are, 0 to 1, and why: shown beside the column. */
  readonly certainty: number;
  readonly reason: ColumnReason;
};

/** Where the rows of one sampling stand in their file. */
export type RowOrigin = {
  readonly file: string;
  readonly sampling: Sampling;
  /** 1-based line numbers in the file, shape [n]; or first and step where they rise evenly. */
  readonly lines: Uint32Array | { readonly first: number; readonly step: number };
};

export type RecordFile = { readonly name: string; readonly bytes: number; readonly sha256: string | null };
/** `text`: the beginning of the line; null where only its time was wrong. */
export type RejectedRow = { readonly file: string; readonly row: number; readonly why: RowRefusal; readonly text: string | null };
/** Every column of the file, used or not. */
export type ColumnNote = { readonly heading: string; readonly index: number; readonly role: ChannelRole; readonly unit: string | null };
/** Not `Record`: TypeScript owns that name. */
export type LogRecord = {
  readonly files: readonly RecordFile[];
  readonly clock: Clock;
  /** Length of the record, s: the last instant counted from the first. */
  readonly duration: Seconds;
  readonly channels: readonly Channel[];
  readonly columns: readonly ColumnNote[];
  readonly origins: readonly RowOrigin[];
  readonly rows: { readonly accepted: number; readonly rejected: number; readonly duplicate: number; readonly reordered: number };
  /** The first hundred, with the total in `rows.rejected`. */
  readonly rejects: readonly RejectedRow[];
  readonly questions: readonly ImportQuestion[];
  readonly notes: readonly ReadingNote[];
  /** What the importer saw (gaps, clock jumps); `analysis/faults` adds what the values show. */
  readonly faults: readonly LogFault[];
};
