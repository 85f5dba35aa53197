import { dayNumber, fullYear } from "./civil-days";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { type ColumnProfile, plainNumber } from "./column-profile";

const PARTS: readonly (readonly [Part, RegExp, number, number])[] = [
  ["year", /^(year|yr|yyyy|jahr|annee|an|ano|anno|jaar)$/, 0, 2200],
  ["month", /^(month|mon|mm|monat|mois|mes|mese|maand)$/, 1, 12],
  ["day", /^(day|dd|tag|jour|dia|giorno|dag|day of month)$/, 1, 31],
  ["hour", /^(hour|hr|hh|h|hours|stunde|heure|hora|ora|uur)$/, 0, 24],
  ["minute", /^(minute|min|minutes|mi|mn|minuto|minuut|mins)$/, 0, 59],
  ["second", /^(second|sec|seconds|s|ss|sekunde|seconde|segundo|secondo|sek|seg)$/, 0, 60.999],
];
type Part = "year" | "month" | "day" | "hour" | "minute" | "second";

/** Columns of year, month, day and hour, minute, second, where the file has them; null unless the date is whole. */
export function findComponents(profiles: readonly ColumnProfile[]): readonly ColumnProfile[] | null {
  const found = PARTS.map(([, words, low, high]) =>
    profiles.find((p) => p.kind === "number" && words.test(p.words) && p.numbers.every((v) => Number.isNaN(v) || (v >= low && v <= high))),
  );
  if (found.slice(0, 3).some((p) => p === undefined) || found[3] === undefined) return null;
  return found.filter((p): p is ColumnProfile => p !== undefined);
}

/** A clock whose year, month, day, hour, minute and second stand in columns of their own. */
export function componentClock(parts: readonly ColumnProfile[], hints: ClockHints): ClockReading {
  const { decimal, thousands } = hints.context;
  return {
    columns: parts.map((p) => p.column.index),
    kind: "civil",
    description: `${parts.map((p) => p.column.heading).join(", ")}: a column each`,
    parse: (cells) => {
      const [year, month, day, hour, minute = 0, second = 0] = cells.map((cell) => plainNumber(cell, decimal, thousands));
      return dayNumber(year < 100 ? fullYear(year) : year, month, day) * 86400 + hour * 3600 + minute * 60 + second;
    },
    patterns: null,
    unitSeconds: 1,
    start: null,
    interval: null,
    zone: hints.answers.zone ?? hints.told.zone ?? hints.answers.siteZone,
    rollsOverMidnight: false,
    orders: [],
    snap: null,
    certainty: 0.95,
    questions: [],
    notes: [],
  };
}

const THOUSANDTHS =
  /^(ms|msec|millis|millisec|milliseconds?|millisekunden?|millisecondes?|milisegundos?|milissegundos?|millisecondi|milliseconden|thousandths)$/;

/** A column of thousandths of a second beside a stamp that has whole seconds only; null where there is none. */
export function findThousandths(profiles: readonly ColumnProfile[]): ColumnProfile | null {
  const fits = (p: ColumnProfile) =>
    p.kind === "number" &&
    THOUSANDTHS.test(p.words) &&
    p.numbers.every((v) => Number.isNaN(v) || (v >= 0 && v < 1000)) &&
    Math.min(p.rises, p.falls) > 0;
  return profiles.find(fits) ?? null;
}

/** A stamp reading with the thousandths of another column added. */
export function withThousandths(reading: ClockReading, extra: ColumnProfile, hints: ClockHints): ClockReading {
  const { decimal, thousands } = hints.context;
  const last = reading.columns.length;
  return {
    ...reading,
    columns: [...reading.columns, extra.column.index],
    description: `${reading.description}, with thousandths from ${extra.column.heading}`,
    parse: (cells) => reading.parse(cells.slice(0, last)) + plainNumber(cells[last], decimal, thousands) / 1000,
    patterns: null,
  };
}
