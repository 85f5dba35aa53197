import { calendarWord } from "./calendar-words";
import { dayNumber, daysFromCivil, fullYear } from "./civil-days";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import { type ColumnProfile, plainNumber } from "./column-profile";
import { findSnap } from "./snap-to-grid";
import { readStamp } from "./stamp-text";
import type { TimePart } from "./time-part";
import { toldYear } from "./told-year";
import { YEAR_DAY } from "./year-day-clock";

type Part = "year" | "month" | "day" | "dayOfYear" | "hour" | "minute" | "second" | "hhmm";
const PARTS: readonly (readonly [Part, RegExp, number, number])[] = [
  ["year", /^(year|yr|yyyy|jahr|annee|an|ano|anno|jaar)$/, 0, 2200],
  ["month", /^(month|mon|mm|monat|mois|mes|mese|maand)$/, 1, 12],
  ["day", /^(day|dd|tag|jour|dia|giorno|dag|day of (?:the )?month|date of (?:the )?month|mday)$/, 1, 31],
  ["dayOfYear", YEAR_DAY, 0, 366.99999999],
  ["hour", /^(hour|hr|hh|h|hours|stunde|heure|hora|ora|uur)$/, 0, 24],
  ["minute", /^(minute|min|minutes|mi|mn|minuto|minuut|mins)$/, 0, 59],
  ["second", /^(second|sec|seconds|s|ss|sekunde|seconde|segundo|secondo|sek|seg)$/, 0, 60.999],
  ["hhmm", /^(hhmm|hh mm|time|hour minute|hourmin)$/, 0, 2400],
];

/** What a name of a part carries beside it: what it is a part of, its limits, that it is local ("Hour of day (0-23)", "Minute local"). Zones go too. */
const BESIDE =
  /\b(?:of (?:the )?(?:hour|minute)|(?:hour|stunde|heure|hora|ora|uur) (?:of (?:the )?|des |du |del |do |van de )(?:day|tages|jour|dia|giorno|dag)|local\w*|lokal\w*|locale|\d+)\b/g;

/** The folded heading of a column as the name of a part of the date or the time. */
const nameOf = ({ words }: ColumnProfile): string => {
  const bare = words.replace(BESIDE, (found) => (/^(?:hour|stunde|heure|hora|ora|uur) /.test(found) ? "hour" : " "));
  const kept = bare.split(/\s+/).filter((word) => word !== "" && calendarWord(word)?.kind !== "zone");
  return kept.length === 0 ? words : kept.join(" ");
};

/** The first column that can be the part and is none of those found. */
function findPart([, names, low, high]: (typeof PARTS)[number], profiles: readonly ColumnProfile[], found: readonly ColumnProfile[]) {
  const fits = (p: ColumnProfile) => p.kind === "number" && p.numbers.every((v) => Number.isNaN(v) || (v >= low && v <= high));
  return profiles.find((p) => fits(p) && !found.includes(p) && (names.test(p.words) || names.test(nameOf(p))));
}

export type Components = ReadonlyMap<Part, ColumnProfile>;

/** Columns of year, month, day (or day of the year) and hour, minute, second, where the file has them; null unless the date is whole. @param year as the file names it elsewhere */
export function findComponents(profiles: readonly ColumnProfile[], year: number | null): Components | null {
  const found = new Map<Part, ColumnProfile>();
  for (const row of PARTS) {
    const profile = findPart(row, profiles, [...found.values()]);
    if (profile !== undefined) found.set(row[0], profile);
  }
  if (!found.has("month")) found.delete("day");
  // a column that says no more than "day" needs its year and month beside it
  if (!found.has("year") && (year === null || found.get("dayOfYear")?.words === "day")) return null;
  const dated = (found.has("month") && found.has("day")) || found.has("dayOfYear");
  return dated ? found : null;
}

/** Columns of hour, minute and second for a date in a column of its own; empty where there is no hour. */
export function findTimeComponents(profiles: readonly ColumnProfile[]): readonly ColumnProfile[] {
  const found: ColumnProfile[] = [];
  for (const row of PARTS) {
    if (row[0] !== "hour" && row[0] !== "minute" && row[0] !== "second") continue;
    const profile = findPart(row, profiles, found);
    if (profile === undefined) return found.length > 1 ? found : [];
    found.push(profile);
  }
  return found;
}

/** Days of the year with a fraction are rounded by the file. */
function snapOf(parts: Components, decimal: "." | ","): ClockReading["snap"] {
  const days = parts.get("dayOfYear");
  return days === undefined || parts.has("hour") || parts.has("hhmm") ? null : findSnap(days.column.sample, decimal, 86400, 0);
}

/** Whether the columns say the time of day too, in columns of its own or as the fraction of the day. */
export const tellsTime = (parts: Components): boolean =>
  parts.has("hour") ||
  parts.has("hhmm") ||
  (parts.get("dayOfYear")?.numbers.some((value) => value % 1 !== 0 && !Number.isNaN(value)) ?? false);

/** A clock whose year, month, day, hour, minute and second stand in columns of their own. @param time a column with the time of day as a whole */
export function componentClock(parts: Components, hints: ClockHints, time: TimePart | null = null): ClockReading {
  const told = parts.has("year") ? null : toldYear(hints);
  const { decimal, thousands } = hints.context;
  const names = [...parts.keys()];
  const used = [...parts.values(), ...(time === null ? [] : [time.profile])];
  const place = (part: Part) => names.indexOf(part);
  const [year, month, day, yearDay, hour, minute, second, hhmm] = (
    ["year", "month", "day", "dayOfYear", "hour", "minute", "second", "hhmm"] as const
  ).map(place);
  const parse = (cells: readonly string[]) => {
    const at = (k: number) => (k < 0 ? 0 : plainNumber(cells[k], decimal, thousands));
    const y = told ?? (at(year) < 100 ? fullYear(at(year)) : at(year));
    const days = day >= 0 ? dayNumber(y, at(month), at(day)) : daysFromCivil(y, 1, 1) + at(yearDay) - 1;
    const clock = hour >= 0 ? at(hour) * 3600 + at(minute) * 60 : hhmm < 0 ? 0 : Math.floor(at(hhmm) / 100) * 3600 + (at(hhmm) % 100) * 60;
    const written = time === null ? 0 : (readStamp(time.asText(cells[names.length]), "dmy")?.seconds ?? Number.NaN);
    return days * 86400 + clock + at(second) + written;
  };
  return {
    columns: used.map((p) => p.column.index),
    kind: "civil",
    description: `${used.map((p) => p.column.heading).join(", ")}: a column each`,
    parse,
    patterns: null,
    unitSeconds: 1,
    start: null,
    interval: null,
    zone: clockZone(hints, used),
    rollsOverMidnight: false,
    ...(told === null ? {} : { rollsOverYear: true }),
    orders: [],
    snap: snapOf(parts, decimal),
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
