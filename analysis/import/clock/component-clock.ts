import { dayNumber, daysFromCivil, fullYear } from "./civil-days";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import { type ColumnProfile, plainNumber } from "./column-profile";
import { type Components, monthOf, type Part } from "./date-parts";
import { findSnap } from "./snap-to-grid";
import { readStamp } from "./stamp-text";
import type { TimePart } from "./time-part";
import { toldYear } from "./told-year";

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
  const named = parts.get("month")?.kind === "text";
  const place = (part: Part) => names.indexOf(part);
  const [year, month, day, yearDay, hour, minute, second, hhmm] = (
    ["year", "month", "day", "dayOfYear", "hour", "minute", "second", "hhmm"] as const
  ).map(place);
  const parse = (cells: readonly string[]) => {
    const at = (k: number) => (k < 0 ? 0 : plainNumber(cells[k], decimal, thousands));
    const monthAt = (cell: string) => (named ? monthOf(cell) : plainNumber(cell, decimal, thousands));
    const y = told ?? (at(year) < 100 ? fullYear(at(year)) : at(year));
    const days = day >= 0 ? dayNumber(y, monthAt(cells[month]), at(day)) : daysFromCivil(y, 1, 1) + at(yearDay) - 1;
    const clock = hour >= 0 ? at(hour) * 3600 + at(minute) * 60 : hhmm < 0 ? 0 : Math.floor(at(hhmm) / 100) * 3600 + (at(hhmm) % 100) * 60;
    const written = time === null ? 0 : (readStamp(time.asText(cells[names.length]), "dmy")?.seconds ?? Number.NaN);
    return days * 86400 + clock + at(second) + written;
  };
  return {
    columns: used.map((p) => p.column.index),
    kind: "civil",
    description: [{ kind: "a-column-each", headings: used.map((p) => p.column.heading) }],
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
    description: [...reading.description, { kind: "thousandths", heading: extra.column.heading }],
    parse: (cells) => reading.parse(cells.slice(0, last)) + plainNumber(cells[last], decimal, thousands) / 1000,
    patterns: null,
  };
}
