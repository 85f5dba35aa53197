import { type Sentences, sayerOf, type Told } from "./told";

const SWAPS = {
  steps: "the readings are stepped otherwise",
  level: "all readings shift at once",
  noise: "the noise changed for good",
  "against-another": "it shifts at once and for good against the other pressure",
} as const;

const HOUR = 3600; // s
const MINUTE = 60; // s

/** What is said of a stretch in which the log itself is wrong. */
const FAULT_NOTES = {
  "no-samples": () => "no samples",
  "values-missing": () => "values missing",
  "no-rows": ({ silence, usual }: { silence: number; usual: number }, w) =>
    `no row for ${w.number(silence)} s where one comes every ${w.number(usual)} s`,
  "no-rows-between": ({ silence, before, after }: { silence: number; before: string; after: string }, w) =>
    `no row for ${w.number(silence)} s between ${before} and ${after}`,
  "headings-again": () => "the logger wrote its headings again",
  "elapsed-again": () => "the elapsed time starts again; how long the logger stood still is not known",
  "signal-lost": () => "signal lost",
  "beyond-live-zero": ({ side, limit, unit }: { side: "below" | "above"; limit: number; unit: string }, w) =>
    `the signal stands at or ${side} ${w.number(limit)} ${unit}: broken wire or sensor fault (NE 43)`,
  "far-out": () => "one reading far out",
  "held-at-end": () => "held at the end of its range",
  "same-reading": ({ times }: { times: number }, w) => `the same reading ${w.number(times)} times`,
  "sensor-swapped": ({ sign }: { sign: keyof typeof SWAPS }) => `${SWAPS[sign]}: rather another sensor; the longer part is used`,
  "stamps-leap": ({ leap }: { leap: number }, w) =>
    `the stamps leap by ${leap % HOUR === 0 ? `${w.number(leap / HOUR)} h` : `${w.number(leap / MINUTE)} min`} and the readings go on: rather a clock put to another zone than a pause`,
  "set-back": ({ by, isZone }: { by: number; isZone: boolean }, w) =>
    `the clock was set back by ${w.number(by)} s: ${isZone ? "as from one time zone to another" : "two stretches of rows claim the same time"}`,
  "stretch-twice": () => "a stretch of rows stands twice in the file",
  "stood-still": () => "the clock stood still while rows were written",
  "summer-time": ({ leap }: { leap: "skips" | "repeats" }) => `the local clock ${leap} an hour`,
  "leaps-to": ({ at, rows, isRefused }: { at: number; rows: number; isRefused: boolean }, w) =>
    `the clock leaps to ${w.instant(at)}; ${w.number(rows)} rows ${isRefused ? "left out" : "placed by the sampling"}`,
} as const satisfies Sentences;

export type FaultNote = Told<typeof FAULT_NOTES>;
export type SwapSign = keyof typeof SWAPS;
export const sayFaultNote = sayerOf(FAULT_NOTES);
