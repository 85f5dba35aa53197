import { foldWord } from "./calendar-words";
import { civilFromDays } from "./civil-days";
import { type ColumnProfile, plainNumber } from "./column-profile";
import { timeUnit } from "./interval-text";
import { elapsedUnit, isElapsedHeading, isTimeHeading } from "./number-clock";
import { isPlaceZone } from "./place-zone";
import { findZone, fixedOffset, writeOffset } from "./zone-text";

/** How a cell of a column becomes text that a stamp can hold; the same text but for times written as bare numbers. */
export type TimePart = { readonly profile: ColumnProfile; readonly asText: (cell: string) => string; readonly plain: boolean };

const same = (cell: string) => cell;

/** A column beside a date that holds its time of day: written as a time, as digits (93005 is 9:30:05) or as a fraction of the day. Null where it holds none. */
export function timePartOf(profile: ColumnProfile, decimal: "." | ","): TimePart | null {
  if (profile.share < 0.6) return null;
  if (profile.kind === "time" && !profile.column.sample.some((cell) => BY_HAND.test(cell) && !cell.includes(":")))
    return { profile, asText: same, plain: true };
  if (hasDayZero(profile)) return { profile, asText: (cell) => cell.replace(DAY_ZERO, ""), plain: false };
  const hand = byHand(profile);
  if (hand !== null) return hand;
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

/** As hands and heads write a time of day: "8.05", "8 Uhr 05", "kl. 08.05", "08-05", "0805h", "0805 hrs". */
const BY_HAND =
  /^(?:kl\.?|um|at|a las|às|alle)?\s*(?:([01]?\d|2[0-4])(?:[.:h-]|\s?(?:uhr|h|hrs)\s?)([0-5]\d)(?:[.:-]([0-5]\d))?|([01]\d|2[0-4])([0-5]\d)(?=\s?(?:h|hrs|hours|uhr)))\s*(?:uhr|h|hrs?|hours)?\.?$/i;
/** Fractions of hundredths run to .99 where they are hours with decimals: so many rows without one beyond .59 show minutes. */
const MANY_MINUTES = 10;

/** A column under the heading of a time whose cells are all written by hand. */
function byHand(profile: ColumnProfile): TimePart | null {
  const filled = profile.column.sample.filter((cell) => cell !== "");
  if (!isTimeHeading(`${profile.words} `) || filled.length === 0 || !filled.every((cell) => BY_HAND.test(cell))) return null;
  if (profile.kind === "number" && (filled.length < MANY_MINUTES || filled.every((cell) => !/\d\.[0-5]\d$/.test(cell)))) return null;
  const asText = (cell: string) =>
    cell.replace(
      BY_HAND,
      (_, h?: string, m?: string, s?: string, hh?: string, mm?: string) => `${h ?? hh}:${m ?? mm}${s === undefined ? "" : `:${s}`}`,
    );
  return { profile, asText, plain: false };
}

/** First days of calendars, spreadsheets, data bases and clocks, which they put before a time that has no date: the first of a year, or nought. */
const DAY_ZERO = new RegExp(
  `^(?:${[
    "(?:0000|0001|1601|1753|1900|1904|1970|1980|2000)[./-]0?1[./-]0?1",
    "0?1[./-]0?1[./-](?:0000|0001|1601|1753|1900|1904|1970|1980|2000)",
    "(?:0000[./-]00[./-]00|00[./-]00[./-]0000)",
    "(?:1899[./-]12[./-]3[01]|3[01][./-]12[./-]1899|12[./-]3[01][./-]1899)",
    "(?:1900[./-]01[./-]00|00[./-]01[./-]1900|0?1[./-]00?[./-]1900|0[./-]0?1[./-]1900)",
    "(?:1980[./-]01[./-]06|0?6[./-]0?1[./-]1980|0?1[./-]0?6[./-]1980)",
  ].join("|")})[ T]+(?=\\d)`,
);
/** Stamps that are times of day in truth, where a date stands beside them. */
export const hasDayZero = ({ kind, column }: ColumnProfile): boolean =>
  (kind === "stamp" || kind === "text") &&
  column.sample.some((cell) => cell !== "") &&
  column.sample.every((cell) => cell === "" || DAY_ZERO.test(cell));
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

/** Headings of the offset from UTC, in seven languages; common practice, no source. */
const COUNTED_OFFSET = new RegExp(
  [
    "^(?:utc|gmt) ?\\+?(?: (?:h|hours?|min\\w*))?$",
    "\\b(?:utc|gmt) ?(?:offset|versatz|verschil)\\b",
    "\\b(?:offset|versatz|verschil|decalage|desfase|desvio|scostamento)\\b.* (?:utc|gmt)\\b",
    "\\b(?:tz|time ?zone|zeitzone|zeitverschiebung|tijdzone|tijdverschil|fuseau|huso|fuso|decalage horaire|desfase horario)\\b",
    "\\boffset (?:min\\w*|h|hours?)$",
  ].join("|"),
);
/** Headings that may be those of an offset from UTC, and of another thing as well. */
const DOUBTFUL_OFFSET = /^(?:offset|zone|zona)$/;
/** Zones lie by whole quarters of an hour from UTC, none further than 14 h (zone list of the IANA). */
const isOffset = (seconds: number) => Math.abs(seconds) <= 14 * 3600 && seconds % 900 === 0;

/** A column that gives the zone of each stamp: by name, as an offset, or as a number of minutes or hours. Null where it is none. */
export function zonePartOf(profile: ColumnProfile): TimePart | null {
  if (isZoneColumn(profile)) return { profile, asText: same, plain: true };
  const unit = COUNTED_OFFSET.test(profile.words) ? offsetUnit(profile) : null;
  return unit === null ? null : { profile, asText: (cell) => writeOffset(Number(cell.replace(",", ".")) * unit), plain: false };
}

/** Folded headings and words for summer time, in seven languages; common practice, no source. */
const SUMMER =
  /\b(?:dst|daylight(?: saving\w*)?|summer ?time|sommerzeit|heure d ?ete|ora legale|(?:horario|hora) de (?:verano|verao)|zomertijd)\b/;

/** A column of 1 in summer time and 0 else, where a line above the table names the zone of the winter and summer time beside it. Null where it is none. */
export function summerPartOf(profile: ColumnProfile, preamble: readonly string[]): TimePart | null {
  const { kind, words, numbers } = profile;
  if (kind !== "number" || !SUMMER.test(words) || !numbers.every((v) => Number.isNaN(v) || v === 0 || v === 1)) return null;
  const line = preamble.find((text) => SUMMER.test(foldWord(text)) && findZone(text) !== null);
  const winter = line === undefined ? null : fixedOffset(findZone(line) ?? "");
  return winter === null ? null : { profile, asText: (cell) => writeOffset(winter + 3600 * Number(cell)), plain: false };
}

/** The offset that a column may give without saying so ("Zone": 2 in every row), as "+02:00"; null where it can be none. */
export function doubtfulOffset(profile: ColumnProfile): string | null {
  const unit = DOUBTFUL_OFFSET.test(profile.words) ? offsetUnit(profile) : null;
  const first = profile.numbers.find((v) => !Number.isNaN(v)) ?? 0;
  return unit === null || first === 0 || profile.rises + profile.falls > 0 ? null : writeOffset(first * unit);
}

/** Seconds in the unit of a column of offsets, of its heading or by their size; null where its numbers are no offsets. */
function offsetUnit({ kind, numbers, words }: ColumnProfile): number | null {
  const known = numbers.filter((v) => !Number.isNaN(v));
  const named = words.split(" ").flatMap((word) => timeUnit(word) ?? [])[0];
  const unit = named ?? (known.some((v) => Math.abs(v) > 14) ? 60 : 3600);
  // summer and winter time at most: a column of hours of the day has more
  const few = known.length > 0 && new Set(known).size <= 2;
  return kind === "number" && few && known.every((v) => isOffset(v * unit)) ? unit : null;
}

/** A column whose every cell names a zone, an offset or a place. */
const isZoneColumn = ({ column, words }: ColumnProfile): boolean =>
  /\b(zone|zona|tz|time zone|timezone|zeitzone|tijdzone|offset|utc|fuseau|huso|fuso)\b/.test(words) &&
  column.sample.every((cell) => cell === "" || fixedOffset(cell) !== null || isPlaceZone(cell));
