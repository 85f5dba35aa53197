import type { ChannelQuantity, ChannelRole } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import type { ColumnReason } from "../../../shared/wording/column-reason";

import type { SignalRange } from "./raw-signal";

/** A column of a file as text, as far as it is needed to say what it is. */
export type ColumnText = {
  readonly index: number;
  readonly heading: string;
  /** Its cell of a units row, where the file has one. */
  readonly unitsCell: string | null;
  /** The column that holds the unit of each of its values, where there is one. */
  readonly unitColumn?: number;
  /** Cells from the head, the middle and the end of the file, trimmed, in order; up to some thousands. */
  readonly sample: readonly string[];
};

/** What is known of the file beside its columns. */
export type FileContext = {
  readonly file: string;
  readonly preamble: readonly string[];
  /** Lines under the table, as far as they were seen before the bulk is read. */
  readonly below?: readonly string[];
  readonly decimal: "." | ",";
  readonly thousands: string | null;
};

/** A raw electrical signal that needs a range: 4-20 mA, 0-10 V, 0.5-4.5 V, counts, per cent of the span. Low and high are of the signal, in SI (A, V, 1) or counts. */
export type RawSignal = {
  readonly kind: `${number}-${number} ${"mA" | "V" | "mV"}` | "0-100 %" | "counts";
  readonly low: number;
  readonly high: number;
  /** What its ends stand for, where the same words say it. */
  readonly range?: SignalRange;
};

/** What a column stands for and how its numbers become SI: SI = number * factor + offset. */
export type ColumnReading = {
  readonly role: ChannelRole;
  readonly position: string | null;
  readonly unit: string | null;
  readonly unitOptions: readonly string[];
  readonly quantity: ChannelQuantity;
  readonly factor: number;
  readonly offset: number;
  readonly raw: RawSignal | null;
  /** How a cell that is no plain number becomes one ("ON" is 1, "stopped" is 0), lower case; empty for numeric columns. */
  readonly words: ReadonlyMap<string, number>;
  /** Numbers that stand for a missing value, as the file writes them (-9999), recognised by their separation from the rest. */
  readonly sentinels: readonly number[];
  /** A totaliser or pulse count that becomes a flow only by difference, and its factor; null otherwise. */
  readonly counter: { readonly kind: "totaliser" | "pulses"; readonly cubicMetrePerCount: number | null } | null;
  /** A heading or text that says the logger writes a row only when a value changes. */
  readonly onChange: boolean;
  readonly certainty: number;
  readonly reason: ColumnReason;
  readonly questions: readonly ImportQuestion[];
};

/** A column of which nothing is known: its numbers are kept as the file wrote them. */
export const NOTHING: ColumnReading = {
  role: "other",
  position: null,
  unit: null,
  unitOptions: [],
  quantity: "none",
  factor: 1,
  offset: 0,
  raw: null,
  words: new Map(),
  sentinels: [],
  counter: null,
  onChange: false,
  certainty: 0.5,
  reason: [],
  questions: [],
};
