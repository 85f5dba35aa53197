import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import type { ColumnProfile } from "./column-profile";
import { commonPattern } from "./stamp-pattern";
import { readStamp } from "./stamp-text";
import { startOf } from "./start-of-log";
import type { TimePart } from "./time-part";

/** A clock of times of day only: the date comes from the preamble or the person, and moves on at midnight. Without a date the clock is elapsed and the date is asked. */
export function timeOfDayClock(profiles: readonly ColumnProfile[], hints: ClockHints, part: TimePart | null = null): ClockReading {
  const start = startOf(hints);
  const date = start.seconds === null ? null : Math.floor(start.seconds / 86400) * 86400;
  const patterns = profiles.length === 1 && part === null ? [commonPattern(profiles[0].column.sample, "dmy")] : [null];
  return {
    columns: profiles.map((p) => p.column.index),
    kind: "elapsed",
    description: `${profiles[0].column.heading}: time of day${date === null ? ", date not known" : ", date from the lines above the table"}`,
    parse: (cells) => {
      const stamp = readStamp(part === null ? cells.join(" ") : part.asText(cells[0]), "dmy");
      return stamp === null || !Number.isNaN(stamp.days) ? Number.NaN : stamp.seconds;
    },
    patterns: patterns[0] === null || patterns[0].endsWith("Z") ? null : [patterns[0]],
    unitSeconds: 1,
    start: date,
    interval: null,
    zone: start.zone ?? hints.answers.zone ?? hints.told.zone ?? hints.answers.siteZone,
    rollsOverMidnight: true,
    orders: start.orders,
    snap: null,
    certainty: date === null ? 0.5 : 0.9,
    questions:
      date === null
        ? [
            {
              id: "start-time",
              text: "The rows carry a time of day but the file names no date. On which date does the log start?",
              options: ["unknown"],
              meaning: ["the record is kept in seconds from its first row"],
              assumed: "unknown",
            },
          ]
        : start.questions,
    notes: [],
  };
}
