import type { Clock } from "../../../shared/record/clock";
import type { ImportQuestion } from "../../../shared/record/import-question";
import type { LogFault } from "../../../shared/record/log-fault";
import type { ClockInWords } from "../../../shared/wording/clock-reading";
import type { DateOrderClue } from "../../../shared/wording/date-order";
import type { ReadingNote } from "../../../shared/wording/reading-note";
import type { RowRefusal } from "../../../shared/wording/row-refusal";
import type { DateOrder } from "./stamp";

/** How the clock of a file is read, settled from headings, preamble and a sample of cells before the bulk is read. */
export type ClockReading = {
  /** 0-based indexes of the columns that make up the time; empty where there is a start and an interval and no time column. */
  readonly columns: readonly number[];
  /** "civil": local date and time; "unix": zone-free instants; "elapsed": seconds from a start that may be unknown; "counted": start + row number * interval. */
  readonly kind: "civil" | "unix" | "elapsed" | "counted";
  /** What it is read from, for the page. */
  readonly description: readonly ClockInWords[];
  /**
   * Cells of `columns` in that order to seconds: for civil the date and time as if it were UTC, for unix the Unix time, for elapsed the
   * seconds since the start; NaN where not understood. An offset written in the cell itself is already taken off (then kind is "unix"), or, where
   * all have the same, it is the reading's zone. Of a "counted" clock only the number of rows matters to `settleClock`, not the values.
   */
  readonly parse: (cells: readonly string[]) => number;
  /**
   * The common forms as a pattern for the byte-level reader, one per column, or null where only `parse` will do. Letters: YYYY YY MM DD hh mm ss,
   * f for any number of decimals after the character before it (optional as a whole), PP for AM or PM in either case, # for a plain decimal number in
   * `unitSeconds`; all else is literal. MM DD hh mm ss take one digit too where no digit follows; YY is 1970 to 2069; fields of several columns are added
   * up (a pattern without a date counts from 0). A cell that does not fit its pattern, in form or as a date that does not exist, goes to `parse`.
   */
  readonly patterns: readonly string[] | null;
  readonly unitSeconds: number;
  /** Start of an elapsed or counted clock, as if UTC, s; null where not known. */
  readonly start: number | null;
  /** Interval of a counted clock, s. */
  readonly interval: number | null;
  /** IANA name or offset where the file or the person said so. */
  readonly zone: string | null;
  /** The time is the first of its rows only (date in the preamble, time of day in the rows): roll over at midnight. */
  readonly rollsOverMidnight: boolean;
  /** The year is not in the rows: a fall by most of a year is the turn of the year. */
  readonly rollsOverYear?: boolean;
  /** The date stands only where it changes: a value below one day is a time of the day last named. */
  readonly datesOnce?: boolean;
  /** Most rows have no stamp of their own: they stand between those that have one. */
  readonly stampsOnce?: boolean;
  /** Orders of day and month that the cells seen allow, the one in use first; one where it is settled, none where no date is written in numbers. */
  readonly orders: readonly DateOrder[];
  /** The order of day and month that the cells seen prove: they exist in no other, or a clue settles it. */
  readonly provenOrder?: DateOrder | null;
  /** The order of a file that leaves it open to the end, by the habit of its form: taken unasked. */
  readonly usualOrder?: { readonly order: DateOrder; readonly by: DateOrderClue };
  /** Rounding of the file undone: instants within `within` of a multiple of `grid` are that multiple, s. */
  readonly snap: { readonly grid: number; readonly within: number } | null;
  readonly certainty: number;
  readonly questions: readonly ImportQuestion[];
  readonly notes: readonly ReadingNote[];
};

/** The rows of one file put in order of time. */
export type SettledClock = {
  readonly clock: Clock;
  /** Seconds after the first instant, strictly rising, shape [kept]. */
  readonly times: Float64Array;
  /** For each kept row its index among the rows read, shape [kept]; null where all rows are kept in their order. */
  readonly order: Uint32Array | null;
  /** Rows read whose instant was not understood or makes no sense, with why; they are rejected by line. */
  readonly rejected: readonly { readonly row: number; readonly why: RowRefusal }[];
  /** The order of day and month where the file settles it by itself; null where it is open or makes no difference. */
  readonly dateOrder: DateOrder | null;
  readonly duplicates: number;
  readonly reordered: number;
  readonly faults: readonly LogFault[];
  /** All questions of the clock that the whole file leaves open: they take the place of those of the reading. */
  readonly questions: readonly ImportQuestion[];
  /** All notes of the clock: they take the place of those of the reading. */
  readonly notes: readonly ReadingNote[];
};
