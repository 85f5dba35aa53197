import { civilFromDays } from "./civil-days";
import { type ColumnProfile, plainNumber } from "./column-profile";
import { timeUnit } from "./interval-text";
import { elapsedUnit, isElapsedHeading, isTimeHeading } from "./number-clock";
import { isPlaceZone } from "./place-zone";
import { fixedOffset, writeOffset } from "./zone-text";

/** How a cell of a column becomes text that a stamp can hold; the same text but for times written as bare numbers. */
export type TimePart = { readonly profile: ColumnProfile; readonly asText: (cell: string) => string; readonly plain: boolean };

const same = (cell: string) => cell;

/** A column beside a date that holds its time of day: written as a time, as digits (93005 is 9:30:05) or as a fraction of the day. Null where it holds none. */
export function timePartOf(profile: ColumnProfile, decimal: "." | ","): TimePart | null {
  if (profile.share < 0.6) return null;
  if (profile.kind === "time") return { profile, asText: same, plain: true };
  if (hasDayZero(profile)) return { profile, asText: (cell) => cell.replace(DAY_ZERO, ""), plain: false };
  const unit = countOfDay(profile);
  if (unit !== null) return { profile, asText: (cell) => fractionAsText((plainNumber(cell, decimal, null) * unit) / 86400), plain: false };
  if (
    profile.kind !== "number" ||
    !(isTimeHeading(`${profile.words} `) || /\bhh ?mm(?: ?ss)?\b/.test(profile.words)) ||
    profile.numbers.length === 0
  )
    return null;
  const known = profile.numbers.filter((v) => !Number.isNaN(v));
  if (known.every((v) => v >= 0 && v < 1) && known.some((v) => v > 0))
    return { profile, asText: (cell) => fractionAsText(plainNumber(cell, decimal, null)), plain: false };
  // 35800 is 3:58:00, so that 100 beside it is 0:01:00 and not 1:00
  const places = profile.column.sample.some((cell) => cell.length > 4) ? 6 : 4;
  const isDigits = profile.column.sample.every((cell) => cell === "" || isDigitTime(cell, places));
  return isDigits ? { profile, asText: (cell) => digitsAsText(cell, places), plain: false } : null;
}

/** The day 0 of spreadsheets and data bases, which they put before a time that has no date. */
const DAY_ZERO = /^(?:30[./-]12[./-]1899|12[./-]30[./-]1899|1899-12-30|0?1[./-]0?1[./-]1900|1900-01-0[01])[ T]+/;
/** Stamps that are times of day in truth. */
export const hasDayZero = ({ kind, column }: ColumnProfile): boolean =>
  kind === "stamp" && column.sample.every((cell) => cell === "" || DAY_ZERO.test(cell));
const MIDNIGHT = /[ T]+0{1,2}:00(?::00(?:[.,]0+)?)?$/;

/** A date that a data base writes with its midnight, beside a time in a column of its own. Null where it is none. */
export function midnightPartOf(profile: ColumnProfile): TimePart | null {
  if (profile.kind !== "stamp" || !profile.column.sample.every((cell) => cell === "" || MIDNIGHT.test(cell))) return null;
  const asText = (cell: string) => cell.replace(MIDNIGHT, "");
  const column = { ...profile.column, sample: profile.column.sample.map(asText) };
  return { profile: { ...profile, kind: "date", column }, asText, plain: false };
}

/** "Seconds of day", "ms since midnight", or a time headed with its unit that begins hours into the day. */
const OF_DAY =
  /\b(?:of (?:the )?day|midnight|des tages|mitternacht|du jour|minuit|del dia|medianoche|do dia|meia noite|del giorno|mezzanotte|van de dag|middernacht)\b|\bsod\b/;

/** The unit, s, of a column that counts the time of day from midnight; null where it does not. */
function countOfDay(profile: ColumnProfile): number | null {
  if (profile.kind !== "number") return null;
  const unit = elapsedUnit(profile)?.seconds ?? unitOfDay(profile.words);
  if (unit === null) return null;
  const known = profile.numbers.filter((v) => !Number.isNaN(v));
  if (known.length === 0 || !known.every((v) => v >= 0 && v * unit <= 86400)) return null;
  return OF_DAY.test(profile.words) || (unit <= 1 && known[0] * unit >= 3600) || countsHours(profile, unit, known) ? unit : null;
}

/** Hours with their fraction that begin anew each day ("Hour (decimal)"), or are not counted from a start. */
const countsHours = ({ words }: ColumnProfile, unit: number, known: Float64Array): boolean =>
  unit === 3600 &&
  known.every((v) => v < 24) &&
  known.some((v) => v % 1 !== 0) &&
  !isElapsedHeading(words) &&
  (known[0] >= 1 || /\bde[cz]imal\w*\b/.test(words));

/** "seconds of day": the unit that comes first. */
function unitOfDay(words: string): number | null {
  if (!OF_DAY.test(words)) return null;
  return (
    words
      .split(" ")
      .map(timeUnit)
      .find((unit) => unit !== null && unit !== 86400) ?? (/\bsod\b/.test(words) ? 1 : null)
  );
}

function fractionAsText(fraction: number): string {
  if (!(fraction >= 0 && fraction < 1)) return "?";
  // a fraction of six places is known to 0.04 s: the millisecond is more than it holds
  const ms = Math.round(fraction * 86_400_000);
  const two = (n: number) => String(Math.floor(n)).padStart(2, "0");
  const seconds = (ms % 60_000) / 1000;
  const whole = Math.abs(seconds - Math.round(seconds)) < 0.045 ? Math.round(seconds) : seconds;
  const total = Math.floor(ms / 60_000) * 60 + whole;
  return `${two(total / 3600)}:${two((total / 60) % 60)}:${two(total % 60)}${total % 1 === 0 ? "" : (total % 1).toFixed(3).slice(1)}`;
}

/** Year and day of the year in one number (2024065), ISO 8601 ordinal date in its basic form. */
const isOrdinal = (cell: string) =>
  cell === "" || (/^(?:19|20)\d{5}$/.test(cell) && Number(cell.slice(4)) >= 1 && Number(cell.slice(4)) <= 366);

/** A date written as the day number of a spreadsheet (45418) or as an ordinal date, beside a time in a column of its own. Null where it is none. */
export function dayPartOf(profile: ColumnProfile): TimePart | null {
  if (
    profile.kind === "number" &&
    /\b(?:date|datum|fecha|data|yyyyddd|julian|doy)\b/.test(profile.words) &&
    profile.column.sample.every(isOrdinal)
  )
    return { profile, asText: (cell) => `${cell.slice(0, 4)}-${cell.slice(4)}`, plain: false };
  if (profile.kind !== "number" || !/\b(date|datum|fecha|data|dia|day|jour|tag)\b/.test(profile.words)) return null;
  if (!profile.numbers.every((v) => Number.isNaN(v) || (v > 20_000 && v < 80_000 && Number.isInteger(v)))) return null;
  return { profile, asText: (cell) => dateOfDay(Number(cell)), plain: false };
}

function dateOfDay(day: number): string {
  const { year, month, day: d } = civilFromDays(day - 25_569);
  return Number.isNaN(year) ? "?" : `${year}-${String(month).padStart(2, "0")}-${String(d).padStart(2, "0")}`;
}

const DIGITS = /^(\d{1,2})([0-5]\d)([0-5]\d)?$/;
const isDigitTime = (cell: string, places: number) => {
  const match = DIGITS.exec(cell.padStart(places, "0"));
  return match !== null && Number(match[1]) < 24;
};

function digitsAsText(cell: string, places: number): string {
  const match = DIGITS.exec(cell.padStart(places, "0"));
  return match === null ? "?" : `${match[1]}:${match[2]}:${match[3] ?? "00"}`;
}

const COUNTED_OFFSET = /\b(?:utc|gmt|tz|zone|time zone|timezone) ?(?:offset|versatz)\b|\boffset (?:to|from|von|zu)? ?(?:utc|gmt)\b/;

/** A column that gives the zone of each stamp: by name, as an offset, or as a number of minutes or hours. Null where it is none. */
export function zonePartOf(profile: ColumnProfile): TimePart | null {
  if (isZoneColumn(profile)) return { profile, asText: same, plain: true };
  if (profile.kind !== "number" || !COUNTED_OFFSET.test(profile.words)) return null;
  const unit = elapsedUnit(profile)?.seconds ?? (profile.numbers.some((v) => Math.abs(v) > 14) ? 60 : 3600);
  if (!profile.numbers.every((v) => Number.isNaN(v) || Math.abs(v * unit) <= 14 * 3600)) return null;
  return { profile, asText: (cell) => writeOffset(Number(cell) * unit), plain: false };
}

/** A column whose every cell names a zone, an offset or a place. */
const isZoneColumn = ({ column, words }: ColumnProfile): boolean =>
  /\b(zone|zona|tz|time zone|timezone|zeitzone|tijdzone|offset|utc|fuseau|huso|fuso)\b/.test(words) &&
  column.sample.every((cell) => cell === "" || fixedOffset(cell) !== null || isPlaceZone(cell));
