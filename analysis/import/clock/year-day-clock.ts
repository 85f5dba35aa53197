import type { ImportQuestion } from "../../../shared/record/import-question";
import { daysFromCivil } from "./civil-days";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import { type ColumnProfile, plainNumber } from "./column-profile";
import { findSnap } from "./snap-to-grid";
import { toldYear } from "./told-year";

/** Folded headings of a day counted within its year; common practice, no source. */
export const YEAR_DAY =
  /^(?:decimal )?(?:doy|day of (?:the )?year|julian (?:day|date)|ordinal day|j ?day|yday|yearday|jour julien|jour de l ?annee|tag im jahr|tag des jahres|jahrestag|dia juliano|dia del ano|dia do ano|giorno dell ?anno|giorno giuliano|dagnummer|dag van het jaar|day)(?: (?:decimal|fraction\w*|\d{4}|of \d{4}))*$/;

export const YEAR_QUESTION: ImportQuestion = {
  id: "start-time",
  asks: { kind: "start-year" },
  options: ["unknown"],
  assumed: "unknown",
};

/** A column of days counted from the first of January, with the time of day as their fraction ("124.5208"). */
export function isYearDay({ kind, words, numbers, rises }: ColumnProfile): boolean {
  if (kind !== "number" || rises === 0 || !YEAR_DAY.test(words.replace(/'/g, " "))) return false;
  const known = numbers.filter((value) => !Number.isNaN(value));
  return known.every((value) => value >= 0 && value < 367) && known.some((value) => value % 1 !== 0);
}

/** Day 1.0 is the midnight in which the year begins. Without a year the clock only counts, and the date is asked. */
export function yearDayClock(profile: ColumnProfile, hints: ClockHints): ClockReading {
  const { decimal, thousands } = hints.context;
  const year = toldYear(hints);
  const origin = year === null ? 0 : (daysFromCivil(year, 1, 1) - 1) * 86400;
  return {
    columns: [profile.column.index],
    kind: year === null ? "elapsed" : "civil",
    description: [{ kind: "day-of-year", heading: profile.column.heading, year }],
    parse: (cells) => plainNumber(cells[0], decimal, thousands) * 86400 + origin,
    patterns: null,
    unitSeconds: 86400,
    start: null,
    interval: null,
    zone: year === null ? null : clockZone(hints, [profile]),
    rollsOverMidnight: false,
    rollsOverYear: true,
    orders: [],
    snap: findSnap(profile.column.sample, decimal, 86400, origin),
    certainty: year === null ? 0.6 : 0.9,
    questions: year === null ? [YEAR_QUESTION] : [],
    notes: [],
  };
}
