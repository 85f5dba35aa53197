import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import type { ColumnProfile } from "./column-profile";
import { readDuration } from "./elapsed-time";
import { startOf } from "./start-of-log";

/** A clock of elapsed h:mm:ss, mm:ss or d hh:mm:ss. Two fields are minutes and seconds where the heading says so or the first of them passes 23. */
export function durationClock(profile: ColumnProfile, hints: ClockHints): ClockReading {
  const start = startOf(hints);
  const cells = profile.column.sample;
  const minutesFirst = /\bmm ss\b|\bm ss\b|\bmin sec\b/.test(profile.words) || cells.some((cell) => /^\d+:\d{2}[.,]\d+$/.test(cell));
  const plain = cells.every((cell) => cell === "" || /^\d{1,2}:\d{2}:\d{2}(?:\.\d+)?$/.test(cell));
  return {
    columns: [profile.column.index],
    kind: "elapsed",
    description: `${profile.column.heading}: elapsed time${start.seconds === null ? "" : " after the start that the file names"}`,
    parse: ([cell]) => readDuration(cell, minutesFirst) ?? Number.NaN,
    patterns: plain ? ["hh:mm:ss.f"] : null,
    unitSeconds: 1,
    start: start.seconds,
    interval: null,
    zone: start.zone ?? hints.answers.zone ?? hints.told.zone ?? hints.answers.siteZone,
    rollsOverMidnight: false,
    orders: start.orders,
    snap: null,
    certainty: 0.9,
    questions: start.questions,
    notes: [],
  };
}
