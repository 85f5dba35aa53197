import type { ImportQuestion } from "../../../shared/record/import-question";
import { daysFromCivil } from "./civil-days";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import type { ColumnProfile } from "./column-profile";
import { readDuration } from "./elapsed-time";
import { startOf } from "./start-of-log";
import { toldYear } from "./told-year";

export const PAIR_QUESTION: ImportQuestion = {
  id: "clock",
  asks: { kind: "two-fields" },
  options: ["minutes:seconds", "hours:minutes"],
  assumed: "minutes:seconds",
};

const IN_YEAR =
  /\b(?:doy|day of (?:the )?year|yday|jour de l ?annee|tag des jahres|dia del ano|dia do ano|giorno dell ?anno|dag van het jaar)\b/;

/** The midnight before the first of January of the year that the file names, s, where a heading says that the days count within it; else null. */
function startOfYear({ words }: ColumnProfile, hints: ClockHints): number | null {
  const year = IN_YEAR.test(words.replace(/'/g, " ")) ? toldYear(hints) : null;
  return year === null ? null : (daysFromCivil(year, 1, 1) - 1) * 86400;
}

/** A clock of elapsed h:mm:ss, mm:ss or d hh:mm:ss. Two fields are minutes and seconds where the heading says so or the first of them passes 23. */
export function durationClock(profile: ColumnProfile, hints: ClockHints): ClockReading {
  const year = startOfYear(profile, hints);
  const start = year === null ? startOf(hints) : { seconds: year, zone: null, orders: [], questions: [] };
  const cells = profile.column.sample;
  const answer = hints.answers.clock;
  const pairs = cells.some((cell) => cell !== "") && cells.every((cell) => cell === "" || /^\d+:\d{2}$/.test(cell));
  const said = /\bhh? mm\b|\bh m\b|\bhours?\b|\bstd\b/.test(profile.words);
  const asks = pairs && !said && answer === null && !/\bmm ss\b|\bm ss\b|\bmin sec\b/.test(profile.words);
  const minutesFirst =
    answer === "minutes:seconds" ||
    (asks && answer === null) ||
    /\bmm ss\b|\bm ss\b|\bmin sec\b/.test(profile.words) ||
    cells.some((cell) => /^\d+:\d{2}[.,]\d+$/.test(cell));
  const plain = cells.every((cell) => cell === "" || /^\d{1,2}:\d{2}:\d{2}(?:\.\d+)?$/.test(cell));
  return {
    columns: [profile.column.index],
    kind: "elapsed",
    description: [{ kind: "elapsed", heading: profile.column.heading, isAfterStart: start.seconds !== null }],
    parse: ([cell]) => readDuration(cell, minutesFirst) ?? Number.NaN,
    patterns: plain ? ["hh:mm:ss.f"] : null,
    unitSeconds: 1,
    start: start.seconds,
    interval: null,
    zone: clockZone(hints, [profile], start.zone),
    rollsOverMidnight: false,
    orders: start.orders,
    snap: null,
    certainty: asks ? 0.6 : 0.9,
    questions: [...start.questions, ...(asks ? [PAIR_QUESTION] : [])],
    notes: [],
  };
}
