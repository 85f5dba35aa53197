import type { ScaleInWords } from "../../../shared/wording/clock-reading";
import type { ClockHints } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { clockZone } from "./clock-zone";
import { type ColumnProfile, plainNumber } from "./column-profile";
import { timeUnit } from "./interval-text";
import { medianStep } from "./median-step";
import type { ToldStamp } from "./preamble-clock";
import { findSnap } from "./snap-to-grid";
import { readStart, startOf } from "./start-of-log";
import { toldCount, toldEpoch } from "./told-epoch";

/** What kind of clock a column of rising numbers is; seconds = number * unitSeconds + origin. */
export type NumberScale = {
  readonly kind: "unix" | "civil" | "elapsed";
  readonly unitSeconds: number;
  readonly origin: number;
  readonly name: ScaleInWords;
  /** How sure the scale is: 1 where range and words agree. */
  readonly certainty: number;
  /** The instant it counts from, where the file says it. */
  readonly epoch?: ToldStamp;
};

const UNIX_FROM = 4e8; // September 1982
const UNIX_TO = 2.6e9; // May 2052: later is counted from another day
const DAYS_1900 = 25569; // days from the spreadsheet's day 0 to 1970, counting a 29 February 1900 that never was
const DAYS_1904 = 24107;
const SECONDS_1904 = 2_082_844_800; // 1904-01-01 to 1970-01-01
const SECONDS_1601 = 11_644_473_600; // 1601-01-01 to 1970-01-01
const SECONDS_1 = 62_135_596_800; // 0001-01-01 to 1970-01-01
const DAYS_JULIAN = 2440587.5;
const DAYS_MODIFIED_JULIAN = 40587;
const DAYS_YEAR_0 = 719529;

/** The scale of a column of numbers, or null where it is no clock. Rising numbers only, but for a few restarts. */
export function numberScale(profile: ColumnProfile, hints: ClockHints): NumberScale | null {
  const { numbers, rises, falls } = profile;
  if (profile.kind !== "number" || profile.share < 0.9 || Math.min(rises, falls) > 0.05 * (rises + falls)) return null;
  const timely = isTimeHeading(profile.words);
  // a spreadsheet that cut Unix times to "1.69471E+12" leaves one instant for all rows
  const stands = rises + falls === 0;
  if (stands && !(timely && numbers.length > 1)) return null;
  const epoch = toldEpoch(profile, hints);
  const counted = epoch === null ? null : (toldCount(profile) ?? elapsedUnit(profile) ?? namedFirst(profile.words));
  if (epoch !== null && counted !== null)
    return {
      kind: "elapsed",
      unitSeconds: counted.seconds,
      origin: 0,
      name: { unit: counted.name, since: epoch.text },
      certainty: 0.95,
      epoch,
    };
  const first = middleOf(numbers);
  // as nanoseconds of Unix they would be of 1989 to 1991, when nobody counted so
  if (timely && first > 6.2e17 && first < 6.6e17)
    return { kind: "unix", unitSeconds: 1e-7, origin: -SECONDS_1, name: "ticks-since-year-1", certainty: 0.8 };
  for (const [unit, name] of [
    [1, "seconds"],
    [1e-3, "milliseconds"],
    [1e-6, "microseconds"],
    [1e-9, "nanoseconds"],
  ] as const) {
    const inRange = first * unit > UNIX_FROM && first * unit < UNIX_TO;
    if (inRange && (timely || profile.column.index === 0))
      return { kind: "unix", unitSeconds: unit, origin: 0, name: `unix-${name}`, certainty: timely ? 0.98 : 0.8 };
  }
  if (stands) return null;
  if (timely && first > 2.7e9 && first < 4.9e9)
    return { kind: "civil", unitSeconds: 1, origin: -SECONDS_1904, name: "seconds-since-1904", certainty: 0.8 };
  if (timely && first > 1.2e17 && first < 1.45e17)
    return { kind: "unix", unitSeconds: 1e-7, origin: -SECONDS_1601, name: "ticks-since-1601", certainty: 0.8 };
  const unit = elapsedUnit(profile);
  const days = unit === null || unit.seconds === 86400 || isNoLength(profile, unit.seconds) ? dayScale(profile, hints, timely) : null;
  if (days !== null) return days;
  if (unit !== null)
    return { kind: "elapsed", unitSeconds: unit.seconds, origin: 0, name: { unit: unit.name, since: null }, certainty: 0.95 };
  return null;
}

/** Steps of less than this are no sampling of a pump's logger, s. */
const FINEST_SAMPLING = 0.01;

/**
 * "Date and hour", "Day/hour", "Heure" over day numbers: what stands there is an instant, and the hour is no unit of it. Where seconds are named,
 * the numbers must also rise too little for seconds.
 */
function isNoLength({ words, numbers }: ColumnProfile, unitSeconds: number): boolean {
  if (!namesDate(words) || !hasFractions(numbers)) return false;
  return unitSeconds >= 60 || medianStep(numbers) * unitSeconds < FINEST_SAMPLING;
}

const DATE_NAME = /\b(?:date|datum|fecha|data|datetime|timestamp|zeitstempel|zeitpunkt|tijdstip|horodat\w*)\b/;
const DAY_NAME = /\b(?:day|tag|jour|dia|giorno|dag)\b/;
const HOUR_NAME = /\b(?:time|zeit|hour|stunde|heure|hora|ora|uur)\b/;

/** Whether a folded heading names a date, a day with its time, or only the word for a time of day that is also an hour's ("Heure"). */
const namesDate = (words: string): boolean =>
  !isElapsedHeading(words) &&
  (DATE_NAME.test(words) || (DAY_NAME.test(words) && HOUR_NAME.test(words)) || /^(?:heure|stunde|hour)$/.test(words));

/** Days counted from a day of old. A heading that names the day as its unit ("Julian day") is no length of time where the numbers are those of our days. */
function dayScale({ numbers, words, column }: ColumnProfile, hints: ClockHints, timely: boolean): NumberScale | null {
  const first = middleOf(numbers);
  const days = (origin: number, name: ScaleInWords, certainty: number): NumberScale => ({
    kind: "civil",
    unitSeconds: 86400,
    origin: -origin * 86400,
    name,
    certainty,
  });
  if (first > 30000 && first < 80000 && /\bmjd\b|modified julian/.test(words))
    return days(DAYS_MODIFIED_JULIAN, "modified-julian-days", 0.9);
  const fractions = hasFractions(numbers);
  // whole numbers that rise are seconds as likely as days, unless their heading says date
  const dated = fractions
    ? timely || column.index === 0 || /\bdays?\b/.test(words)
    : /\b(?:date|datum|fecha|data|dia|days?|jour|tag)\b/.test(words);
  if (
    dated &&
    (namesDate(words) || !/\b(?:s|ms|secs?|seconds?|millis\w*|sekunden|secondes?|segundos|secondi|seconden)\b/.test(words)) &&
    allWithin(numbers, 20000, 80000)
  )
    return spreadsheetDays(hints, timely);
  if (first > 2.4e6 && first < 2.5e6 && /julian|jd/.test(words)) return days(DAYS_JULIAN, "julian-days", 0.9);
  if (first > 715000 && first < 770000 && fractions && (timely || column.index === 0)) return days(DAYS_YEAR_0, "days-from-year-0", 0.8);
  return null;
}

function spreadsheetDays({ context, headings }: ClockHints, timely: boolean): NumberScale {
  const later = [...context.preamble, ...headings].some((line) => /\b1904\b/.test(line));
  const origin = -(later ? DAYS_1904 : DAYS_1900) * 86400;
  return {
    kind: "civil",
    unitSeconds: 86400,
    origin,
    name: later ? "spreadsheet-1904" : "spreadsheet-1900",
    certainty: timely ? 0.9 : 0.75,
  };
}

const middleOf = (numbers: Float64Array): number => {
  const known = numbers.filter((v) => !Number.isNaN(v)).sort();
  return known[known.length >> 1] ?? Number.NaN;
};

const allWithin = (numbers: Float64Array, low: number, high: number) => numbers.every((v) => Number.isNaN(v) || (v > low && v < high));

const hasFractions = (numbers: Float64Array) => numbers.some((v) => v % 1 !== 0 && !Number.isNaN(v));

const TIMELY =
  /\b(time|timestamp|datetime|date|zeit|zeitstempel|datum|uhrzeit|temps|heure|horodatage|horodate|tiempo|fecha|hora|tempo|data|ora|tijd|tijdstip|instante|marca|ts|epoch|unix|clock|when|moment)\b|(zeit|time|datum|tijd)\w*$/;

/** Whether a folded heading names a time, in seven languages. "data" alone is the Italian and Portuguese date. */
export const isTimeHeading = (words: string): boolean => TIMELY.test(words);

const ELAPSED =
  /\b(elapsed|elaps\w*|runtime|run time|laufzeit|verstrichen\w*|dauer|duration|duracion|duracao|durata|tijdsduur|duur|duree|ecoule\w*|transcurrido|decorrido|trascorso|verstreken|looptijd|uptime|relative|since|seit|depuis|desde|dal|sinds|t)\b/;

/** Whether a folded heading says that time is counted from a start. */
export const isElapsedHeading = (words: string): boolean => ELAPSED.test(words);

/** "Seconds after ...". */
function namedFirst(words: string): { readonly seconds: number; readonly name: string } | null {
  const [name] = words.split(" ");
  const seconds = timeUnit(name);
  return seconds === null ? null : { seconds, name };
}

/** The unit of an elapsed time named by heading or units cell: "Elapsed (min)", "Time [s]", "Seconds", "t_ms". */
export function elapsedUnit(profile: ColumnProfile): { readonly seconds: number; readonly name: string } | null {
  const cell = profile.column.unitsCell?.replace(/[[\](){}]/g, "") ?? "";
  const timely = isTimeHeading(profile.words) || isElapsedHeading(profile.words);
  const words = profile.words.split(" ");
  if (timeUnit(cell) !== null && (timely || words.length === 1)) return { seconds: timeUnit(cell)!, name: cell };
  const units = words.filter(
    (word) => timeUnit(word) !== null && word !== "d" && word !== "a" && word !== "hora" && word !== "ora" && word !== "uur",
  );
  const last = units.at(-1);
  if (last === undefined || (!timely && words.length > 2)) return null;
  return { seconds: timeUnit(last)!, name: last };
}

/** Instants and lengths beyond this (3,170 years), s, are no readings of a clock: a broken cell must not stretch the record to nowhere. */
export const FURTHEST_INSTANT = 1e11;
/** No logger's clock ticks finer, s; instants closer to the start are the start. */
const FINEST = 1e-9;
function withinReach(instant: number): number {
  if (!(Math.abs(instant) <= FURTHEST_INSTANT)) return Number.NaN;
  return Math.abs(instant) < FINEST ? 0 : instant;
}

/** A clock of one column of numbers. */
export function numberClock(profile: ColumnProfile, scale: NumberScale, hints: ClockHints): ClockReading {
  const { decimal, thousands } = hints.context;
  const absolute = scale.kind !== "elapsed";
  const start = absolute ? null : scale.epoch === undefined ? startOf(hints) : readStart(scale.epoch, hints);
  const { heading, index } = profile.column;
  return {
    columns: [profile.column.index],
    kind: scale.kind,
    description: [{ kind: "numbers", heading, index, scale: scale.name, isAfterStart: start !== null && start.seconds !== null }],
    parse: (cells) => withinReach(plainNumber(cells[0], decimal, thousands) * scale.unitSeconds + scale.origin),
    patterns: scale.origin === 0 ? ["#"] : null,
    unitSeconds: scale.unitSeconds,
    start: start?.seconds ?? null,
    interval: null,
    zone: scale.kind === "unix" ? "UTC" : clockZone(hints, [profile], start?.zone),
    rollsOverMidnight: false,
    orders: start?.orders ?? [],
    snap: findSnap(profile.column.sample, decimal, scale.unitSeconds, scale.origin),
    certainty: scale.certainty,
    questions: start?.questions ?? [],
    notes: [],
  };
}
