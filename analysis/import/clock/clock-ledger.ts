import type { ImportQuestion } from "../../../shared/record/import-question";
import type { LogFault } from "../../../shared/record/log-fault";
import type { ReadingNote } from "../../../shared/wording/reading-note";
import type { RowRefusal } from "../../../shared/wording/row-refusal";

/** A place on the clock that is wrong, in the working clock's own seconds: made relative to the first instant at the end. */
export type PlacedFault = Omit<LogFault, "from" | "to" | "channel"> & { readonly from: number; readonly to: number };

/** What the stations on the way write down. Rows count from 0 in the order in which they are looked at. */
export type ClockLedger = {
  readonly rejected: { row: number; why: RowRefusal }[];
  readonly faults: PlacedFault[];
  readonly questions: ImportQuestion[];
  readonly notes: ReadingNote[];
};
