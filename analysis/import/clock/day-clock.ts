import type { ImportQuestion } from "../../../shared/record/import-question";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import type { ColumnProfile } from "./column-profile";
import { dateInName } from "./named-date";
import { commonPattern } from "./stamp-pattern";
import { readStamp } from "./stamp-text";
import { NO_START, startOf } from "./start-of-log";
import type { TimePart } from "./time-part";

/** A clock of times of day only: the date comes from the preamble or the person, and moves on at midnight. A date in the file's name is proposed; without any the clock is elapsed. Either is asked. */
export function timeOfDayClock(profiles: readonly ColumnProfile[], hints: ClockHints, part: TimePart | null = null): ClockReading {
  const start = startOf(hints);
  const named = start.seconds === null && hints.answers.start === null ? dateInName(hints.context.file) : null;
  const told = start.seconds ?? (named === null ? null : Date.parse(`${named}T00:00:00Z`) / 1000);
  const date = told === null ? null : Math.floor(told / 86400) * 86400;
  const patterns = profiles.length === 1 && part === null ? [commonPattern(profiles[0].column.sample, "dmy")] : [null];
  return {
    columns: profiles.map((p) => p.column.index),
    kind: "elapsed",
    description: [
      {
        kind: "time-of-day",
        heading: profiles[0].column.heading,
        date: date === null ? "unknown" : named === null ? "above" : "in-name",
      },
    ],
    parse: (cells) => {
      const stamp = readStamp(part === null ? cells.join(" ") : part.asText(cells[0]), "dmy");
      return stamp === null || !Number.isNaN(stamp.days) ? Number.NaN : stamp.seconds;
    },
    patterns: patterns[0] === null || patterns[0].endsWith("Z") ? null : [patterns[0]],
    unitSeconds: 1,
    start: date,
    interval: null,
    zone: clockZone(hints, profiles, start.zone),
    rollsOverMidnight: true,
    orders: start.orders,
    snap: null,
    certainty: date === null || named !== null ? 0.5 : 0.9,
    questions: start.seconds === null && hints.answers.start === null ? [dateQuestion(named)] : start.questions,
    notes: [],
  };
}

function dateQuestion(named: string | null): ImportQuestion {
  return {
    id: "start-time",
    asks: named === null ? { kind: "start-date" } : { kind: "start-in-name", date: named },
    options: [...(named === null ? [] : [named]), NO_START],
    assumed: named ?? NO_START,
  };
}
