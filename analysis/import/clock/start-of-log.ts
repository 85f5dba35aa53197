import type { ImportQuestion } from "../../../shared/record/import-question";
import type { ClockHints } from "./clock-hints";
import { refused } from "./clock-hints";
import { possibleOrders } from "./date-order";
import { dateOrderQuestion } from "./date-order-question";
import { orderOfSibling } from "./date-sibling";
import { orderOfComma } from "./order-clues";
import { type ToldStamp, toldSeconds } from "./preamble-clock";
import type { DateOrder } from "./stamp";
import { writeOffset } from "./zone-text";

export type StartOfLog = {
  /** As if UTC, s; null where the file does not say. */
  readonly seconds: number | null;
  readonly hasTime: boolean;
  readonly zone: string | null;
  readonly orders: readonly DateOrder[];
  readonly questions: readonly ImportQuestion[];
};

/** What a person answers who does not know the start. */
export const NO_START = "unknown";

/** The start that a person or the preamble names. A date read in two ways is asked. @throws ImportError unknown-answer */
export function startOf(hints: ClockHints): StartOfLog {
  const { answers, told } = hints;
  if (answers.start === NO_START) return { seconds: null, hasTime: false, zone: null, orders: [], questions: [] };
  if (answers.start !== null) {
    const stamp: ToldStamp = {
      text: answers.start.replace(/^(\d{4}-\d{2}-\d{2})T/, "$1 "),
      role: "start",
      hasDate: true,
      hasTime: /\d:\d/.test(answers.start),
    };
    const read = readStart(stamp, hints);
    if (read.seconds === null) throw refused("start-time", answers.start, ["2024-05-01 10:00:00"]);
    return { ...read, questions: [] };
  }
  const dated = told.stamps.filter((s) => s.hasDate && s.role !== "written" && s.role !== "end");
  const chosen = dated.find((s) => s.role === "start") ?? dated.find((s) => s.hasTime) ?? dated[0];
  return chosen === undefined ? { seconds: null, hasTime: false, zone: null, orders: [], questions: [] } : readStart(chosen, hints);
}

/** A stamp of the file as the start to count from. */
export function readStart(stamp: ToldStamp, hints: ClockHints): StartOfLog {
  const { answers, told } = hints;
  const possible = possibleOrders([stamp.text]);
  const habit = /^\d{1,2}\.\d{1,2}\.\d{2,4}/.test(stamp.text) ? "dmy" : (orderOfComma([stamp.text], possible, hints)?.order ?? null);
  const settled = answers.order ?? told.order ?? orderOfSibling(stamp.text, possible, told)?.order ?? habit;
  const orders = settled !== null && possible.includes(settled) ? [settled] : possible;
  const readings = orders.map((order) => toldSeconds(stamp, order));
  const first = readings[0];
  if (first === undefined || first.stamp === null || Number.isNaN(first.seconds))
    return { seconds: null, hasTime: false, zone: null, orders: [], questions: [] };
  const offset = first.stamp.offset;
  return {
    seconds: first.seconds,
    hasTime: !Number.isNaN(first.stamp.seconds),
    zone: Number.isNaN(offset) ? null : writeOffset(offset),
    orders: [],
    questions:
      orders.length > 1
        ? [
            dateOrderQuestion(
              orders,
              readings.map((r) => [r.seconds, r.seconds]),
            ),
          ]
        : [],
  };
}
