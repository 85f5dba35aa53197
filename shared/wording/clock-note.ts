import { type DateOrderClue, sayDateOrderClue } from "./date-order";
import { quoted, type Sentences, sayTimes, type Write } from "./told";

const SET_BACK = {
  "follow-on": "They are taken to follow the rows before them.",
  "set-right": "The rows before it are taken to be as much earlier.",
  "as-written": "They are kept as they are written, the first of each instant.",
} as const;

const PLACED = {
  refused: "they are left out, named by line",
  fits: "the sampling shows their place",
  guessed: "they are taken to follow the rows beside them without a pause",
} as const;

/** Found by comparing what two loggers both saw, s; shifts of the second against the first. */
export type Offset = { readonly value: number; readonly low: number; readonly high: number; readonly correlation: number };

/** "+95.0 s (+94.2 to +95.8 s, correlation 0.98)" */
export function sayOffset({ value, low, high, correlation }: Offset, w: Write): string {
  // as many digits as the interval is worth
  const say = (s: number) => saySigned(s, w, high - low < 20 ? 1 : 0);
  return `${say(value)} s (${say(low)} to ${say(high)} s, correlation ${w.fixed(correlation, 2)})`;
}
export const saySigned = (s: number, w: Write, digits = Math.abs(s) < 10 ? 1 : 0): string =>
  `${s < 0 ? "-" : "+"}${w.fixed(Math.abs(s), digits)}`;

/** What was noticed of the clock, and what was done about it. */
export const CLOCK_NOTES = {
  "date-order": ({ by }: { by: DateOrderClue }, w) => sayDateOrderClue(by, w),
  "set-back": ({ at, by, rows, answer }: { at: number; by: number; rows: number; answer: keyof typeof SET_BACK }, w) =>
    `At ${w.instant(at)} the clock was set back by ${w.number(by)} s: ${w.number(rows)} rows claim a time that is taken already. ${SET_BACK[answer]}`,
  "stretch-twice": ({ rows }: { rows: number }, w) => `A stretch of ${w.number(rows)} rows stands twice in the file; the first is kept.`,
  "stood-still": ({ at, rows }: { at: number; rows: number }, w) =>
    `At ${w.instant(at)} the clock stood still for ${w.number(rows)} rows; the usual interval places them up to the row that follows.`,
  "clock-reset": ({ at, rows, placed }: { at: number; rows: number; placed: keyof typeof PLACED }, w) =>
    `In mid-log the clock leaps to ${w.instant(at)}: ${w.number(rows)} rows have a wrong date; ${PLACED[placed]}.`,
  restart: ({ times }: { times: number }, w) =>
    `The elapsed time starts again ${sayTimes(times, w)}; each run is placed one usual step after the one before.`,
  "summer-time": ({ at, leap }: { at: number; leap: "skips" | "repeats" }, w) =>
    `At ${w.instant(at)} the clock ${leap} an hour, as local time does when summer time ${leap === "skips" ? "begins" : "ends"}; the rows are taken to go on evenly.`,
  "repeated-hour": ({ rows }: { rows: number }, w) =>
    `Summer time ends within the log: ${w.number(rows)} rows of the repeated hour were put in order by the sampling.`,
  "missing-hour": ({ rows, zone }: { rows: number; zone: string }, w) =>
    `${w.number(rows)} rows carry a local time that ${zone} skips when summer time begins; read as if the clock had not been put forward.`,
  "duplicate-times": ({ rows }: { rows: number }, w) =>
    `${w.number(rows)} ${rows === 1 ? "row repeats" : "rows repeat"} the instant of an earlier row; the first of each instant is kept.`,
  "out-of-order": ({ rows }: { rows: number }, w) =>
    `${w.number(rows)} ${rows === 1 ? "row stands" : "rows stand"} after a later one; sorted by time.`,
  "newest-first": () => "The newest row stands first in the file; the rows were turned round.",
  "coarse-stamps": ({ unit, rows }: { unit: number; rows: number }, w) => {
    const name = { 1: "second", 60: "minute", 3600: "hour" }[unit] ?? `${w.number(unit)} s`;
    return `The stamps are cut to the ${name} and ${w.number(rows)} rows share each; the rows are spread evenly over their ${name}.`;
  },
  "stamps-once": ({ stamped, rows, step }: { stamped: number; rows: number; step: number }, w) =>
    `Only ${w.number(stamped)} of ${w.number(rows)} rows carry a stamp; the others are spread evenly from stamp to stamp, a row every ${w.number(step)} s.`,
  "one-stamp": () => "Nearly all rows carry the same stamp; they are counted from it, one after the other.",
  "stuck-date": ({ midnights }: { midnights: number }, w) =>
    `The date stays while the time of day passes midnight ${sayTimes(midnights, w)}; the rows after it are taken for the next day.`,
  "unmarked-halves": () => "Times run from 1 to 12 without AM or PM; noon and midnight are told by the order of the rows.",
  repetition: () =>
    "Quotes alone in a cell say the same as above: the date holds until another is written; among the values they count as missing.",
  /** Each clock by the headings of its columns. */
  "several-clocks": ({ read, others }: { read: readonly string[]; others: readonly (readonly string[])[] }) =>
    `The clock is read from ${quoted(read, " and ")}; ${others.map((one) => quoted(one, " and ")).join(", ")} could be a clock too and ${others.length > 1 ? "are" : "is"} left out.`,
  "same-instants": ({ files }: { files: readonly string[] }) => `The rows of ${files.join(" and ")} stand at the same instants throughout.`,
  "clocks-agree": ({ files, offset }: { files: readonly string[]; offset: Offset }, w) =>
    `The clocks of ${files.join(" and ")} agree: ${sayOffset(offset, w)}.`,
  "clocks-not-compared": ({ files }: { files: readonly string[] }) =>
    `The clocks of ${files.join(" and ")} could not be compared: no pattern that both show clearly. They are laid over each other as stamped.`,
  "clock-offset": ({ file, against, offset }: { file: string; against: string; offset: Offset }, w) =>
    `${file} against ${against}: ${sayOffset(offset, w)}.`,
} as const satisfies Sentences;
