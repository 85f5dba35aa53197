import { dayNumber, daysFromCivil, fullYear } from "./civil-days";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import type { ColumnProfile } from "./column-profile";

type Field = "year" | "month" | "day" | "dayOfYear" | "hour" | "minute" | "second";
type Place = { readonly field: Field; readonly from: number; readonly to: number };

/** A heading that spells how its digits are read: letters of a date and a time, parted at most by marks. A month is named before the hour, a minute after it. */
const FORM = /^[ydmhs]+(?:[ _tT/.:-]+[ydmhs]+)*$/i;
const FIELDS: readonly (readonly [Field, RegExp])[] = [
  ["year", /^y{4}|^y{2}/],
  ["dayOfYear", /^d{3}/],
  ["day", /^d{2}/],
  ["hour", /^h{2}/],
  ["second", /^s{2}/],
];

/** Where in a run of digits each field stands, by a heading such as "DDMMYYHHMM" or "YYDDD HHMM"; null where it spells no date with a time of day. */
export function speltForm(heading: string): readonly Place[] | null {
  if (!FORM.test(heading.trim())) return null;
  let rest = heading
    .trim()
    .toLowerCase()
    .replace(/[^ydmhs]/g, "");
  const places: Place[] = [];
  while (rest !== "") {
    const named = FIELDS.find(([, letters]) => letters.test(rest));
    const length = named === undefined ? (/^m{2}/.exec(rest)?.[0].length ?? 0) : (named[1].exec(rest)?.[0].length ?? 0);
    if (length === 0) return null;
    const field = named?.[0] ?? (places.some((place) => place.field === "hour") ? "minute" : "month");
    const from = places.at(-1)?.to ?? 0;
    places.push({ field, from, to: from + length });
    rest = rest.slice(length);
  }
  const fields = places.map(({ field }) => field);
  const dated = fields.includes("year") && (fields.includes("dayOfYear") || (fields.includes("day") && fields.includes("month")));
  return dated && fields.includes("hour") && new Set(fields).size === fields.length ? places : null;
}

/** Seconds as if UTC of a cell of digits; NaN where they are no such date. A program that took them for a number has lost the zero in front. */
export function speltSeconds(cell: string, places: readonly Place[]): number {
  const length = places[places.length - 1].to;
  const digits = cell.replace(/[ _tT/.:-]/g, "").padStart(length, "0");
  if (digits.length !== length || !/^\d+$/.test(digits)) return Number.NaN;
  const at = (field: Field) => {
    const place = places.find((one) => one.field === field);
    return place === undefined ? null : Number(digits.slice(place.from, place.to));
  };
  const [written, yearDay] = [at("year") ?? Number.NaN, at("dayOfYear")];
  const year = written < 100 ? fullYear(written) : written;
  const days = yearDay === null ? dayNumber(year, at("month") ?? 0, at("day") ?? 0) : daysFromCivil(year, 1, 1) + yearDay - 1;
  const [hour, minute, second] = [at("hour") ?? 0, at("minute") ?? 0, at("second") ?? 0];
  const exists = hour < 24 && minute < 60 && second < 60 && (yearDay === null || (yearDay > 0 && yearDay < 367));
  return exists ? days * 86400 + hour * 3600 + minute * 60 + second : Number.NaN;
}

/** Whether the cells of a column are of the form that its heading spells. */
export function isSpelt({ column }: ColumnProfile): boolean {
  const places = speltForm(column.heading);
  const filled = column.sample.filter((cell) => cell !== "");
  if (places === null || filled.length === 0) return false;
  return filled.filter((cell) => !Number.isNaN(speltSeconds(cell, places))).length > 0.9 * filled.length;
}

/** A clock of one column of digits whose heading spells their form. */
export function speltClock(profile: ColumnProfile, hints: ClockHints): ClockReading {
  const { heading, index } = profile.column;
  const places = speltForm(heading) ?? [];
  const zone = clockZone(hints, [profile]);
  return {
    columns: [index],
    kind: "civil",
    description: [{ kind: "stamps", columns: [{ heading, index, form: { letters: heading.trim() } }], zone }],
    parse: (cells) => speltSeconds(cells[0], places),
    patterns: null,
    unitSeconds: 1,
    start: null,
    interval: null,
    zone,
    rollsOverMidnight: false,
    orders: [],
    snap: null,
    certainty: 0.97,
    questions: [],
    notes: [],
  };
}
