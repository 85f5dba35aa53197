import type { ImportQuestion } from "../../../shared/record/import-question";
import type { ColumnText } from "../columns/column-reading";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { NO_START, startOf } from "./start-of-log";

/** A clock that nobody set counts from the day of Unix: a log of a whole year from there is none of a pump. */
const YEAR = 365 * 86400;

/** Whether all stamps of the sample lie in 1970. */
export function standsAtDayZero(reading: ClockReading, columns: readonly ColumnText[]): boolean {
  if (reading.kind !== "civil") return false;
  const used = reading.columns.flatMap((index) => columns.find((column) => column.index === index) ?? []);
  const instants = (used[0]?.sample ?? [])
    .map((_, at) => reading.parse(used.map(({ sample }) => sample[at] ?? "")))
    .filter((t) => !Number.isNaN(t));
  return instants.length > 0 && instants.every((t) => t >= 0 && t < YEAR);
}

/** Its stamps are time since the clock began; the start is asked. */
export function countedFromDayZero(reading: ClockReading, hints: ClockHints): ClockReading {
  const start = hints.answers.start === null ? null : startOf(hints);
  const question: ImportQuestion = { id: "start-time", asks: { kind: "start-never-set" }, options: [NO_START], assumed: NO_START };
  return {
    ...reading,
    kind: "elapsed",
    start: start?.seconds ?? null,
    certainty: 0.5,
    questions: start === null ? [...reading.questions, question] : reading.questions,
  };
}
