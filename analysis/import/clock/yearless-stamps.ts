import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import type { ColumnProfile } from "./column-profile";
import type { TimePart } from "./time-part";
import { toldYear } from "./told-year";
import { YEAR_QUESTION } from "./year-day-clock";

/** Day and month, in numbers or with the month as a word, right before a time of day: "13.05. 10:00", "May 13 10:00:00", "13-May 10:00". */
const YEARLESS =
  /^((?:\d{1,2}[./-]\d{1,2}\.?)|(?:\d{1,2}\.?[ -]?\p{L}{3,10}\.?)|(?:\p{L}{3,10}\.? {0,2}\d{1,2},?))([ T]+|, *)(?=\d{1,2}[:h]\d{2})/u;
/** Stands in for a year that nobody named: the record then counts from its first row. */
const ANY_YEAR = 2001;

/** The same with nothing behind it, for a time in a column of its own. */
const YEARLESS_DATE = /^((?:\d{1,2}[./-]\d{1,2}\.?)|(?:\d{1,2}\.?[ -]?\p{L}{3,10}\.?)|(?:\p{L}{3,10}\.? {0,2}\d{1,2}))()$/u;
const DATE_WORD = /\b(?:date|datum|fecha|data|day|dia|jour|tag|dag)\b/;

type YearlessPart = { readonly part: TimePart; readonly year: number | null };

/** A column of stamps without their year; null where it is none. The year is put in where the file tells it. */
export const yearlessPart = (profile: ColumnProfile, hints: ClockHints): YearlessPart | null => partOf(profile, hints, YEARLESS, "stamp");

/** A column of dates without their year, under a heading that says date. */
export const yearlessDatePart = (profile: ColumnProfile, hints: ClockHints): YearlessPart | null =>
  DATE_WORD.test(profile.words) ? partOf(profile, hints, YEARLESS_DATE, "date") : null;

function partOf(profile: ColumnProfile, hints: ClockHints, form: RegExp, kind: "stamp" | "date"): YearlessPart | null {
  const filled = profile.column.sample.filter((cell) => cell !== "");
  if (filled.length < 2 || filled.filter((cell) => form.test(cell)).length < 0.9 * filled.length) return null;
  const year = toldYear(hints);
  const asText = (cell: string) => cell.replace(form, (_, date: string) => `${withYear(date, year ?? ANY_YEAR)} `).trimEnd();
  const column = { ...profile.column, sample: profile.column.sample.map(asText) };
  return { part: { profile: { ...profile, kind, share: 1, column }, asText, plain: false }, year };
}

function withYear(date: string, year: number): string {
  const mark = /\d([./-])\d/.exec(date)?.[1];
  return mark === undefined ? `${date.replace(/,$/, "").replace("-", " ")} ${year}` : `${date.replace(/\.$/, "")}${mark}${year}`;
}

/** The reading of such stamps: it goes on into the next year in January, and only counts where no year is known. */
export const acrossYears = (reading: ClockReading, year: number | null): ClockReading =>
  year === null
    ? { ...reading, kind: "elapsed", zone: null, rollsOverYear: true, certainty: 0.6, questions: [...reading.questions, YEAR_QUESTION] }
    : { ...reading, rollsOverYear: true };
