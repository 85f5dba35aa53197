import type { ImportQuestion } from "../../../shared/record/import-question";
import type { ColumnText, FileContext } from "../columns/column-reading";
import type { ImportChoices } from "../import-log";
import { sparseStamps } from "./carry-stamps";
import { civilClock } from "./civil-clock";
import { type ClockHints, readClockAnswers } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { type ColumnProfile, foldHeading, profileColumn } from "./column-profile";
import { componentClock, findThousandths, tellsTime, withThousandths } from "./component-clock";
import { countedClock, indexClock, isIndexColumn } from "./counted-clock";
import { type Components, findComponents, findTimeComponents } from "./date-parts";
import { timeOfDayClock } from "./day-clock";
import { countedFromDayZero, standsAtDayZero } from "./day-zero-clock";
import { askDoubtfulZone } from "./doubtful-zone";
import { durationClock, PAIR_QUESTION } from "./duration-clock";
import { medianStep } from "./median-step";
import { isElapsedHeading, isTimeHeading, numberClock, numberScale } from "./number-clock";
import { plainTimeClock } from "./plain-time-clock";
import { OF_INSTRUMENT, readPreambleClock, stampsIn } from "./preamble-clock";
import { isSpelt, speltClock } from "./spelt-clock";
import { dayPartOf, doubtfulOffset, hasDayZero, midnightPartOf, summerPartOf, type TimePart, timePartOf, zonePartOf } from "./time-part";
import { toldYear } from "./told-year";
import { unclearQuestions } from "./unclear-lines";
import { isYearDay, yearDayClock } from "./year-day-clock";
import { acrossYears, yearlessDatePart, yearlessPart } from "./yearless-stamps";

/** A way of reading the clock, and how good a clock it would be. */
type Candidate = { readonly score: number; readonly profiles: readonly ColumnProfile[]; readonly read: () => ClockReading };

/**
 * Finds the clock of a file among its columns, its preamble and the person's choices.
 * @returns null where there is no time column and neither start nor interval is named
 * @throws ImportError unknown-answer where an answer about the clock cannot be understood
 */
export function readClock(columns: readonly ColumnText[], context: FileContext, choices: ImportChoices): ClockReading | null {
  const hints = hintsOf(columns, context, choices);
  const role = new Map(choices.columns.map((c) => [c.heading, c.role]));
  const allowed = columns.filter((c) => (role.get(c.heading) ?? "time") === "time");
  const chosen = allowed.filter((c) => role.get(c.heading) === "time");
  const profiles = (chosen.length > 0 ? chosen : allowed).map((c) => profileColumn(c, context.decimal, context.thousands));
  const candidates = findCandidates(profiles, hints, chosen.length > 0).sort((a, b) => b.score - a.score);
  const reading = candidates.length === 0 ? countedClock(hints) : withSparseStamps(withOthersNamed(candidates), columns, hints);
  if (reading !== null && standsAtDayZero(reading, columns)) return countedFromDayZero(reading, hints);
  const { unknownZone } = hints.told;
  const offset = reading?.kind === "civil" && reading.zone === null && unknownZone === null ? offsetQuestion(profiles, reading) : null;
  if (reading !== null && offset !== null) return { ...reading, questions: [...reading.questions, offset] };
  if (reading !== null && reading.kind !== "unix" && reading.zone !== null)
    return askDoubtfulZone(reading, zoneTexts(reading, columns, context), hints);
  if (reading === null) return null;
  const unclear = unclearQuestions(reading, hints);
  if (unclear.length > 0) return { ...reading, questions: [...reading.questions, ...unclear] };
  if (unknownZone === null || reading.zone !== null || reading.kind === "unix") return reading;
  return { ...reading, questions: [...reading.questions, zoneQuestion(unknownZone)] };
}

/** Where an abbreviation of the zone can stand: the stamps, the headings over them, the lines above the table. */
const zoneTexts = (reading: ClockReading, columns: readonly ColumnText[], { preamble }: FileContext): readonly string[] => [
  ...columns
    .filter(({ index }) => reading.columns.includes(index))
    .flatMap(({ heading, unitsCell, sample }) => [sample.find((cell) => cell !== "") ?? "", heading, unitsCell ?? ""]),
  ...preamble,
];

/** A clock for a file that has no column of time at all and names no interval: its rows are counted, the interval is assumed and asked. */
export const countRows = (columns: readonly ColumnText[], context: FileContext, choices: ImportChoices): ClockReading | null =>
  countedClock(hintsOf(columns, context, choices), true);

function hintsOf(columns: readonly ColumnText[], context: FileContext, choices: ImportChoices): ClockHints {
  const headings = columns.flatMap((c) => [c.heading, c.unitsCell ?? ""]);
  const told = readPreambleClock(context.preamble.filter(isReadable), headings);
  // a start may be written under the rows too
  const below = (context.below ?? [])
    .filter(isReadable)
    .flatMap(stampsIn)
    .filter(({ role }) => role === "start");
  return { context, columns, told: { ...told, stamps: [...told.stamps, ...below] }, headings, answers: readClockAnswers(choices) };
}

/** A preamble line that a person would read; one of thousands of letters is something else and costs time. */
const isReadable = (line: string) => line.length <= 1000;

const zoneQuestion = (words: string): ImportQuestion => ({
  id: "time-zone",
  asks: { kind: "unknown-zone", words },
  options: ["UTC"],
  assumed: "UTC",
});

/** A column beside the clock that may be the offset from UTC, or a part of a garden: only a person can tell. */
function offsetQuestion(profiles: readonly ColumnProfile[], { columns }: ClockReading): ImportQuestion | null {
  for (const profile of profiles) {
    const offset = columns.includes(profile.column.index) ? null : doubtfulOffset(profile);
    if (offset === null) continue;
    return {
      id: "time-zone",
      asks: { kind: "offset-column", heading: profile.column.heading },
      options: ["UTC", offset],
      assumed: "UTC",
    };
  }
  return null;
}

function findCandidates(profiles: readonly ColumnProfile[], hints: ClockHints, chosen: boolean): Candidate[] {
  const found: Candidate[] = [];
  const parts = findComponents(profiles, toldYear(hints));
  if (parts !== null) found.push(ofComponents(parts, profiles, hints));
  const extra = findThousandths(profiles);
  const zone = profiles.flatMap((p) => zonePartOf(p) ?? summerPartOf(p, hints.context.preamble) ?? [])[0];
  const stamped = (used: readonly TimePart[]) => () => {
    const reading = civilClock(zone === undefined ? used : [...used, zone], hints);
    return extra === null || used.some(({ profile }) => hasFraction(profile)) ? reading : withThousandths(reading, extra, hints);
  };
  for (const [k, profile] of profiles.entries()) {
    const yearless = profile.kind === "text" || profile.share < 0.6 ? yearlessPart(profile, hints) : null;
    if (yearless !== null)
      found.push({ score: 80, profiles: [profile], read: () => acrossYears(civilClock([yearless.part], hints), yearless.year) });
    const undated = profile.kind === "text" || profile.kind === "number" ? yearlessDatePart(profile, hints) : null;
    const beside = undated === null ? [] : timeParts(profiles, k, hints.context.decimal);
    if (undated !== null && beside.length > 0) {
      const used = [undated.part, ...beside];
      const read = () => acrossYears(civilClock(used, hints), undated.year);
      found.push({ score: 90, profiles: [profile, ...beside.map((part) => part.profile)], read });
    }
    if ((profile.kind === "number" || profile.kind === "text") && isSpelt(profile)) {
      found.push({ score: 110, profiles: [profile], read: () => speltClock(profile, hints) });
      continue;
    }
    if (profile.share < 0.6) continue;
    const world = /\b(utc|gmt)\b/.test(profile.words);
    const heading = (isTimeHeading(profile.words) || world ? 10 : 0) + (world ? 5 : 0) - k / 100;
    const moving = profile.column.sample.some((cell) => cell !== "" && cell !== profile.column.sample[0]);
    // of two stamps a row the one that moves with the rows ("received at" stands still for many)
    const share = new Set(profile.column.sample).size / Math.max(1, profile.column.sample.length);
    // the stamps of a list of alarms beside the log stand in few of its rows
    const filled = profile.column.sample.filter((cell) => cell !== "").length;
    const stands = !moving || 2 * filled < profile.column.sample.length;
    const add = (score: number, used: readonly ColumnProfile[], read: () => ClockReading) =>
      found.push({ score: score + heading + 4 * share - (stands && used.length === 1 ? 60 : 0), profiles: used, read });
    if (profile.kind === "stamp" && !(hasDayZero(profile) && profiles.some((p) => p !== profile && isDate(p))))
      add(100, [profile], stamped([asPart(profile)]));
    const midnight = midnightPartOf(profile);
    const own = midnight === null ? [] : timeParts(profiles, k, hints.context.decimal);
    if (midnight !== null && own.length > 0) add(105, [profile, ...own.map((part) => part.profile)], stamped([midnight, ...own]));
    if (profile.kind === "date" && !isOfOtherThing(profile)) {
      const near = timeParts(profiles, k, hints.context.decimal);
      const columns = near.some(({ plain }) => plain) ? [] : findTimeComponents(profiles);
      const others = columns.length > 0 ? columns : near;
      add(others.length > 0 ? 95 : 70, [profile, ...others.map((o) => o.profile)], stamped([asPart(profile), ...others]));
    }
    if (profile.kind === "time")
      add(50, [profile], () => (isElapsed(profile, hints) ? durationClock(profile, hints) : dayOrPairs(withHalf(profiles, k), hints)));
    if (profile.kind === "duration") add(55, [profile], () => durationClock(profile, hints));
    const day = dayPartOf(profile);
    const others = day === null ? [] : timeParts(profiles, k, hints.context.decimal);
    if (day !== null && others.length > 0) add(90, [profile, ...others.map((o) => o.profile)], stamped([day, ...others]));
    const fraction =
      profile.kind === "number" && hints.told.stamps.some((s) => s.hasDate) ? timePartOf(profile, hints.context.decimal) : null;
    if (fraction !== null && profile.numbers.every((v) => Number.isNaN(v) || v < 1))
      add(50, [profile], () => timeOfDayClock([profile], hints, fraction));
    if (profile.kind === "number") addNumber(profile, hints, extra, add, chosen);
  }
  return found;
}

/** Columns of year, month and day, with a time of day in columns of its own, as a whole beside them, or with none: a row a day. */
function ofComponents(parts: Components, profiles: readonly ColumnProfile[], hints: ClockHints): Candidate {
  const used = [...parts.values()];
  if (tellsTime(parts)) return { score: 85, profiles: used, read: () => componentClock(parts, hints) };
  const times = profiles.flatMap((p) => (used.includes(p) ? [] : (timePartOf(p, hints.context.decimal) ?? [])));
  const time = times.find(({ plain }) => plain) ?? times[0] ?? null;
  const all = time === null ? used : [...used, time.profile];
  return { score: time === null ? 65 : 85, profiles: all, read: () => componentClock(parts, hints, time) };
}

/** A date of the instrument, or one that the first row does not have, is none of the times beside it. */
const isOfOtherThing = ({ column, words }: ColumnProfile) => OF_INSTRUMENT.test(words) || column.sample[0] === "";

const hasFraction = ({ column }: ColumnProfile) => column.sample.some((cell) => /:\d{2}[.,]\d/.test(cell));

function addNumber(
  profile: ColumnProfile,
  hints: ClockHints,
  thousandths: ColumnProfile | null,
  add: (score: number, used: readonly ColumnProfile[], read: () => ClockReading) => void,
  chosen: boolean,
): void {
  if (isYearDay(profile)) {
    add(62, [profile], () => yearDayClock(profile, hints));
    return;
  }
  const scale = numberScale(profile, hints);
  // "ms" beside whole Unix seconds is the rest of the instant
  const isParted = scale?.kind === "unix" && scale.unitSeconds === 1 && profile.numbers.every((v) => Number.isNaN(v) || v % 1 === 0);
  const rest = isParted && thousandths !== profile ? thousandths : null;
  if (scale !== null)
    add(scale.kind === "unix" ? 50 + 30 * (isTimeHeading(profile.words) ? 1 : 0) : scale.kind === "civil" ? 70 : 60, [profile], () => {
      const reading = numberClock(profile, scale, hints);
      return rest === null ? reading : withThousandths({ ...reading, snap: null }, rest, hints);
    });
  else if (isIndexColumn(profile)) {
    add(30, [profile], () => indexClock(profile, hints));
  } else if (
    chosen ||
    ((isTimeHeading(profile.words) || isElapsedHeading(profile.words)) && Math.min(profile.rises, profile.falls) <= 0.05 * profile.rises)
  )
    add(40, [profile], () => plainTimeClock(profile, hints));
  else if (profile.column.index === 0 && isEvenlyRising(profile.numbers)) add(20, [profile], () => plainTimeClock(profile, hints));
}

/** The first column counts evenly under a heading that says nothing of time: a clock of last resort, its unit asked. */
function isEvenlyRising(numbers: Float64Array): boolean {
  const step = medianStep(numbers);
  let even = 0;
  for (let i = 1; i < numbers.length; i++) if (Math.abs(numbers[i] - numbers[i - 1] - step) <= 0.02 * step) even++;
  return numbers.length > 5 && even >= 0.95 * (numbers.length - 1);
}

/** A column of dates, with or without the midnight that a data base puts behind them. */
const isDate = (profile: ColumnProfile): boolean => profile.kind === "date" || (midnightPartOf(profile) !== null && !hasDayZero(profile));

/** The time of day that goes with a date column: the nearest column of times, with columns of AM and PM and of the zone where there are. */
function timeParts(profiles: readonly ColumnProfile[], date: number, decimal: "." | ","): readonly TimePart[] {
  const times = profiles.flatMap((p, k) => (k === date ? [] : (timePartOf(p, decimal) ?? [])));
  if (times.length === 0) return [];
  const place = (part: TimePart) => Math.abs(profiles.indexOf(part.profile) - date) + (part.plain ? 0 : 100);
  const nearest = times.reduce((a, b) => (place(b) < place(a) ? b : a));
  const half = profiles[profiles.indexOf(nearest.profile) + 1];
  return half?.kind === "half" ? [nearest, asPart(half)] : [nearest];
}

const asPart = (profile: ColumnProfile): TimePart => ({ profile, asText: (cell) => cell, plain: true });

const withHalf = (profiles: readonly ColumnProfile[], time: number): readonly ColumnProfile[] =>
  profiles[time + 1]?.kind === "half" ? [profiles[time], profiles[time + 1]] : [profiles[time]];

/** A column of h:mm:ss counts from a start where its heading says so, or where it begins at 0 while the file's start is another time of day. */
function isElapsed(profile: ColumnProfile, hints: ClockHints): boolean {
  if (isElapsedHeading(foldHeading(profile.column))) return true;
  const first = profile.column.sample.find((cell) => cell !== "") ?? "";
  if (!/^0{1,3}:0{1,2}(?::0{1,2}(?:[.,]0+)?)?$/.test(first)) return false;
  const start = hints.told.stamps.find((s) => s.role === "start" && s.hasTime);
  return start !== undefined && !/(?<![\d:])0{1,2}:00(?::00)?(?![\d:])/.test(start.text);
}

/** Two fields that begin at 00:00 with no date anywhere are hours and minutes from midnight or minutes and seconds from the start: asked. */
function dayOrPairs(profiles: readonly ColumnProfile[], hints: ClockHints): ClockReading {
  const cells = profiles[0].column.sample.filter((cell) => cell !== "");
  const opens = profiles.length === 1 && cells.every((cell) => /^\d{1,2}:\d{2}$/.test(cell)) && /^0{1,2}:00$/.test(cells[0] ?? "");
  const dates = [...hints.told.stamps, ...hints.headings.flatMap(stampsIn)].some(({ hasDate }) => hasDate);
  if (!opens || dates || new Set(cells).size < cells.length) return timeOfDayClock(profiles, hints);
  if (hints.answers.clock === PAIR_QUESTION.options[0]) return durationClock(profiles[0], hints);
  const day = timeOfDayClock(profiles, hints);
  return hints.answers.clock !== null ? day : { ...day, questions: [...day.questions, { ...PAIR_QUESTION, ...AS_DAY }] };
}

const AS_DAY = { asks: { kind: "two-fields-from-zero" }, assumed: PAIR_QUESTION.options[1] } as const;

/** Stamps in few rows stand for those between them where they show one step from row to row; else they are a list beside the log and no clock of it. */
function withSparseStamps(reading: ClockReading, columns: readonly ColumnText[], hints: ClockHints): ClockReading | null {
  const cells = reading.columns.map((index) => columns.find((column) => column.index === index)?.sample ?? []);
  const rows = cells[0]?.map((_, row) => cells.map((sample) => sample[row])) ?? [];
  const blank = rows.filter((row) => row.every((cell) => cell === "")).length;
  const sparse = 2 * blank <= rows.length ? "none" : sparseStamps(Float64Array.from(rows, reading.parse), blank);
  if (sparse === "none") return reading;
  const counted = countedClock(hints);
  return sparse === "even" && (counted === null || counted.start === null) ? { ...reading, stampsOnce: true } : counted;
}

/** Several candidates: the best is taken, and it is said. */
function withOthersNamed(candidates: readonly Candidate[]): ClockReading {
  const [best, ...rest] = candidates;
  const reading = best.read();
  const others = rest.filter((c) => c.profiles.every((p) => !best.profiles.includes(p)) && c.score >= 50);
  if (others.length === 0) return reading;
  const headings = (c: Candidate) => c.profiles.map((p) => p.column.heading);
  return { ...reading, notes: [...reading.notes, { kind: "several-clocks", read: headings(best), others: others.map(headings) }] };
}
