import type { ImportQuestion } from "../../shared/record/import-question";
import type { ReadingNote } from "../../shared/wording/reading-note";
import type { ClockReading } from "./clock/clock-reading";
import { RUNNING_AT } from "./columns/column-choices";
import type { ColumnReading, FileContext } from "./columns/column-reading";
import type { QualityColumn } from "./columns/quality-column";
import type { DeviceColumn } from "./devices";
import type { TextRow } from "./find-format";
import type { LongForm } from "./long-form";
import type { NumberFormat } from "./number-format";
import type { TimedGroup } from "./own-times";
import type { CellFormat } from "./row-cells";
import type { TimesAcross } from "./times-across";

/** A column of the table as it will be read. */
export type PlannedColumn = {
  readonly index: number;
  readonly heading: string;
  readonly unitsCell: string | null;
  /** The column with the unit of each of its values; null where one unit is for all. */
  readonly unitColumn: number | null;
  /** The column that says how good each of its values is. */
  readonly quality?: QualityColumn;
  readonly reading: ColumnReading;
  /** "number": becomes samples; "time": part of the clock; "text": kept out of the record. */
  readonly use: "number" | "time" | "text";
  /** A missing value has a mark ("NaN"): a blank would rather be no sample at all. */
  readonly marksMissing: boolean;
  /** Needs more than the 24 bits of a Float32. */
  readonly wide: boolean;
};

/** How one file will be read: settled from its head and pieces from further on, before the bulk. */
export type TablePlan = {
  readonly file: string;
  readonly context: FileContext;
  readonly cells: CellFormat;
  readonly numbers: NumberFormat;
  readonly dialect: string;
  readonly columns: readonly PlannedColumn[];
  /** One value a row and a column that names its channel; null for a column a channel. */
  readonly long: LongForm | null;
  /** The rows belong to several devices that one column names; null where they are one log. */
  readonly devices: DeviceColumn | null;
  /** Groups of columns with a time of their own; null where one clock serves all. */
  readonly groups: readonly TimedGroup[] | null;
  /** Several instants a row, its columns of numbers being the same quantity at each; null where a row is one instant. */
  readonly across: TimesAcross | null;
  /** The columns that this reading is about, a row blank in all of them being blank; null for all. */
  readonly only: readonly number[] | null;
  readonly clock: ClockReading;
  /** What was noticed about the columns. */
  readonly notes: readonly ReadingNote[];
  /** Cells of the clock in the first row of data. */
  readonly firstStamp: readonly string[];
  /** 1-based line of the first row of data. */
  readonly firstLine: number;
  /** Rows above the data, for the page and to know a repeated heading by. */
  readonly above: readonly TextRow[];
  readonly headingLines: readonly number[];
  readonly unitLine: number | null;
  /** Mean length of a row of data, bytes: to estimate their number. */
  readonly bytesPerRow: number;
  /** Characters of every stamp in the first column of the clock, null where they differ: a line that breaks off in its stamp has fewer. */
  readonly stampLength: number | null;
  /** Decimals that every number of a column has, null where they differ: a row that breaks off in a number shows by fewer. One a column. */
  readonly decimals: readonly (number | null)[];
};

/** What has to be asked about a column; one of text is asked only for the meaning of its words. */
export const questionsOf = ({ use, reading }: PlannedColumn): readonly ImportQuestion[] =>
  use === "number" ? reading.questions : reading.questions.filter(({ options }) => options.some((option) => option.startsWith(RUNNING_AT)));
