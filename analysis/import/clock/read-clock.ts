import type { ColumnText, FileContext } from "../columns/column-reading";
import type { ImportChoices } from "../import-log";
import { civilClock } from "./civil-clock";
import { type ClockHints, readClockAnswers } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { type ColumnProfile, foldHeading, profileColumn } from "./column-profile";
import { componentClock, findComponents, findThousandths, withThousandths } from "./component-clock";
import { countedClock, indexClock, isIndexColumn } from "./counted-clock";
import { timeOfDayClock } from "./day-clock";
import { durationClock } from "./duration-clock";
import { isElapsedHeading, isTimeHeading, numberClock, numberScale } from "./number-clock";
import { plainTimeClock } from "./plain-time-clock";
import { readPreambleClock } from "./preamble-clock";

/** A way of reading the clock, and how good a clock it would be. */
type Candidate = { readonly score: number; readonly profiles: readonly ColumnProfile[]; readonly read: () => ClockReading };

/**
 * Finds the clock of a file among its columns, its preamble and the person's choices.
 * @returns null where there is no time column and neither start nor interval is named
 * @throws ImportError unknown-answer where an answer about the clock cannot be understood
 */
export function readClock(columns: readonly ColumnText[], context: FileContext, choices: ImportChoices): ClockReading | null {
  const headings = columns.flatMap((c) => [c.heading, c.unitsCell ?? ""]);
  const hints: ClockHints = { context, told: readPreambleClock(context.preamble, headings), answers: readClockAnswers(choices) };
  const role = new Map(choices.columns.map((c) => [c.heading, c.role]));
  const allowed = columns.filter((c) => (role.get(c.heading) ?? "time") === "time");
  const chosen = allowed.filter((c) => role.get(c.heading) === "time");
  const profiles = (chosen.length > 0 ? chosen : allowed).map((c) => profileColumn(c, context.decimal, context.thousands));
  const candidates = findCandidates(profiles, hints, chosen.length > 0).sort((a, b) => b.score - a.score);
  if (candidates.length === 0) return countedClock(hints);
  return withOthersNamed(candidates);
}

function findCandidates(profiles: readonly ColumnProfile[], hints: ClockHints, chosen: boolean): Candidate[] {
  const found: Candidate[] = [];
  const parts = findComponents(profiles);
  if (parts !== null) found.push({ score: 85, profiles: parts, read: () => componentClock(parts, hints) });
  const extra = findThousandths(profiles);
  const stamped = (used: readonly ColumnProfile[]) => () =>
    extra === null || used.some(hasFraction) ? civilClock(used, hints) : withThousandths(civilClock(used, hints), extra, hints);
  for (const [k, profile] of profiles.entries()) {
    if (profile.share < 0.6) continue;
    const heading = (isTimeHeading(profile.words) ? 10 : 0) + (/\b(utc|gmt)\b/.test(profile.words) ? 5 : 0) - k / 100;
    const moving = profile.column.sample.some((cell) => cell !== "" && cell !== profile.column.sample[0]);
    const add = (score: number, used: readonly ColumnProfile[], read: () => ClockReading) =>
      found.push({ score: score + heading - (moving || used.length > 1 ? 0 : 60), profiles: used, read });
    if (profile.kind === "stamp") add(100, [profile], stamped([profile]));
    if (profile.kind === "date") {
      const others = timeParts(profiles, k);
      add(others.length > 0 ? 95 : 70, [profile, ...others], stamped([profile, ...others]));
    }
    if (profile.kind === "time")
      add(50, [profile], () => (isElapsed(profile, hints) ? durationClock(profile, hints) : timeOfDayClock(withHalf(profiles, k), hints)));
    if (profile.kind === "duration") add(55, [profile], () => durationClock(profile, hints));
    if (profile.kind === "number") addNumber(profile, hints, add, chosen);
  }
  return found;
}

const hasFraction = ({ column }: ColumnProfile) => column.sample.some((cell) => /:\d{2}[.,]\d/.test(cell));

function addNumber(
  profile: ColumnProfile,
  hints: ClockHints,
  add: (score: number, used: readonly ColumnProfile[], read: () => ClockReading) => void,
  chosen: boolean,
): void {
  const scale = numberScale(profile, hints);
  if (scale !== null)
    add(scale.kind === "unix" ? 50 + 30 * (isTimeHeading(profile.words) ? 1 : 0) : scale.kind === "civil" ? 70 : 60, [profile], () =>
      numberClock(profile, scale, hints),
    );
  else if (isIndexColumn(profile)) {
    if (hints.told.interval !== null || hints.answers.interval !== null || hints.told.stamps.some((s) => s.role === "start" && s.hasDate))
      add(30, [profile], () => indexClock(profile, hints));
  } else if (
    chosen ||
    ((isTimeHeading(profile.words) || isElapsedHeading(profile.words)) && Math.min(profile.rises, profile.falls) <= 0.05 * profile.rises)
  )
    add(40, [profile], () => plainTimeClock(profile, hints));
}

/** The time of day that goes with a date column: the nearest column of times, with a column of AM and PM after it where there is one. */
function timeParts(profiles: readonly ColumnProfile[], date: number): readonly ColumnProfile[] {
  const times = profiles.flatMap((p, k) => (p.kind === "time" && p.share > 0.6 ? [k] : []));
  if (times.length === 0) return [];
  const nearest = times.reduce((a, b) => (Math.abs(b - date) < Math.abs(a - date) ? b : a));
  return withHalf(profiles, nearest);
}

const withHalf = (profiles: readonly ColumnProfile[], time: number): readonly ColumnProfile[] =>
  profiles[time + 1]?.kind === "half" ? [profiles[time], profiles[time + 1]] : [profiles[time]];

/** A column of h:mm:ss counts from a start where its heading says so, or where it begins at 0 while the file's start is another time of day. */
function isElapsed(profile: ColumnProfile, hints: ClockHints): boolean {
  if (isElapsedHeading(foldHeading(profile.column))) return true;
  const first = profile.column.sample.find((cell) => cell !== "") ?? "";
  if (!/^0{1,3}:0{1,2}(?::0{1,2}(?:[.,]0+)?)?$/.test(first)) return false;
  const start = hints.told.stamps.find((s) => s.role === "start" && s.hasTime);
  return start !== undefined && !/\b0{1,2}:00(:00)?/.test(start.text);
}

/** Several candidates: the best is taken, and it is said. */
function withOthersNamed(candidates: readonly Candidate[]): ClockReading {
  const [best, ...rest] = candidates;
  const reading = best.read();
  const others = rest.filter((c) => c.profiles.every((p) => !best.profiles.includes(p)) && c.score >= 50);
  if (others.length === 0) return reading;
  const name = (c: Candidate) => c.profiles.map((p) => `"${p.column.heading}"`).join(" and ");
  const text = `The clock is read from ${name(best)}; ${others.map(name).join(", ")} could be a clock too and ${others.length > 1 ? "are" : "is"} left out.`;
  return { ...reading, notes: [...reading.notes, { kind: "several-clocks", text }] };
}
