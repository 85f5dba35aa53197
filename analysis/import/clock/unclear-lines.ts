import type { ImportQuestion } from "../../../shared/record/import-question";
import { firstUnread, speaksOf } from "../statement-words";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { stampsIn } from "./preamble-clock";
import { NO_START } from "./start-of-log";
import { findZone, writeOffset, zoneWords } from "./zone-text";

const saysZone = (line: string): boolean => findZone(line.replace(/[;,\t"=]/g, " ")) !== null || zoneWords(line) !== null;
const saysStart = (line: string): boolean => stampsIn(line).length > 0;

/** Whether the readers of the clock understood a line. */
export const readsZone = (line: string): boolean => saysZone(line) || saysStart(line);
export const readsStart = saysStart;

/** What has to be asked of a clock without a zone or a start because a line above the table may name it in words that are not understood. */
export function unclearQuestions(reading: ClockReading, { context, answers }: ClockHints): readonly ImportQuestion[] {
  const asked = reading.questions.map(({ id }) => id);
  const zone = reading.zone === null && reading.kind !== "unix" && answers.zone === null && !asked.includes("time-zone");
  const start = reading.kind === "elapsed" && reading.start === null && answers.start === null && !asked.includes("start-time");
  const around = [...context.preamble, ...(context.below ?? [])];
  return [...(zone ? zoneOf(around) : []), ...(start ? startOf(around) : [])];
}

/** No zone lies farther from UTC (IANA time zone database), s. */
const LARGEST = 14 * 3600;

function zoneOf(lines: readonly string[]): readonly ImportQuestion[] {
  const found = firstUnread("zone", lines, readsZone);
  if (found === null || found.number === 0) return [];
  const seconds = [3600, 60, 1].map((unit) => found.number * unit).find((value) => Math.abs(value) <= LARGEST && value % 900 === 0);
  if (seconds === undefined) return [];
  return [
    {
      id: "time-zone",
      asks: { kind: "offset-line", line: found.line },
      options: ["UTC", writeOffset(seconds), writeOffset(-seconds)],
      assumed: "UTC",
    },
  ];
}

function startOf(lines: readonly string[]): readonly ImportQuestion[] {
  const line = lines.find((text) => speaksOf("start", text) && !readsStart(text));
  if (line === undefined) return [];
  return [
    {
      id: "start-time",
      asks: { kind: "start-line", line: line.trim() },
      options: [NO_START],
      assumed: NO_START,
    },
  ];
}
