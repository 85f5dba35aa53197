import type { RejectedRow } from "../record/log-record";
import { type Sentences, sayerOf, type Told } from "./told";

/** Why a line of a file is no row of the record. */
const ROW_REFUSALS = {
  "ends-within": () => "the file ends in the middle of this row",
  "cell-count": ({ cells, expected }: { cells: number; expected: number }, w) =>
    `has ${w.number(cells)} cells where ${w.number(expected)} are expected`,
  "first-value-cut": () => "the row breaks off in its first value",
  "too-long": () => "the line is longer than a row can be",
  "no-number": () => "no value in it is a number",
  "no-instant": ({ cell }: { cell: string }) => `"${cell}" is not an instant in this file's form`,
  "no-data": () => "not a row of data",
  "no-such-date": ({ order }: { order: string }) => `the date does not exist in the order ${order}`,
  "time-not-understood": () => "the time is not understood",
  "clock-wrong": ({ at }: { at: number }, w) => `the clock is wrong (${w.instant(at)}) and nothing shows where the row belongs`,
} as const satisfies Sentences;

export type RowRefusal = Told<typeof ROW_REFUSALS>;
const sayRefusal = sayerOf(ROW_REFUSALS);

/** Why, and behind it the line as far as it is known. */
export const sayRejected = ({ why, text }: Pick<RejectedRow, "why" | "text">, locale: string | null): string =>
  text === null ? sayRefusal(why, locale) : `${sayRefusal(why, locale)}: ${text}`;
