import { type Offset, sayOffset, saySigned } from "./clock-note";
import { type OrderInWords, sayDateOrder } from "./date-order";
import type { Asked, Questions } from "./told";

/** What is assumed where the log shows a change to or from summer time and names no zone. */
export const UNBROKEN_LOCAL_TIME = "local time of the logger, unbroken";

const KEPT_AS_STAMPED = "the stamps are kept as they are; any name such as Europe/Lisbon or an offset such as +02:00 will do";
const FROM_FIRST_ROW = "the record is kept in seconds from its first row";

/** Places whose abbreviations of a zone mean different offsets. */
const PLACES = {
  india: "India",
  israel: "Israel",
  "ireland-in-summer": "Ireland in summer",
  "central-north-america": "central North America",
  china: "China",
  cuba: "Cuba",
} as const;
export type PlaceOfZone = keyof typeof PLACES;

const inZone = (text: string, ...meaning: readonly string[]): Asked => ({ text, meaning: [KEPT_AS_STAMPED, ...meaning] });
const withoutStart = (text: string): Asked => ({ text, meaning: [FROM_FIRST_ROW] });

/** What only a person can know of a clock. */
export const CLOCK_QUESTIONS = {
  /** `ranges`: first and last instant under each order, s as if UTC. */
  "date-order": ({ orders, ranges }: { orders: readonly OrderInWords[]; ranges: readonly (readonly [number, number])[] }, w) => ({
    text: "The dates of this log can be read in more than one way. In which order are day and month written?",
    meaning: orders.map((order, k) => `${sayDateOrder(order)}: the log runs from ${w.instant(ranges[k][0])} to ${w.instant(ranges[k][1])}`),
  }),
  interval: () => ({
    text: "The file does not say how often a row was written. What is the time from one row to the next?",
    meaning: [],
  }),
  "several-zones": () => inZone("The stamps name several zones by their places. In which zone did the clock run?"),
  "unknown-zone": ({ words }: { words: string }) =>
    inZone(`The file names its zone as "${words}", which is no name of the zone list. In which zone did the clock run?`),
  "offset-column": ({ heading }: { heading: string }) =>
    inZone(
      `"${heading}" may be the offset of the clock from UTC, or something else. In which zone did the clock run?`,
      "the column is the offset",
    ),
  "offset-line": ({ line }: { line: string }) =>
    inZone(
      `"${line}" may say how far the clock stands from UTC. In which zone did it run?`,
      "the clock runs ahead of UTC by it, or behind by a minus",
      "the other way round",
    ),
  "doubtful-zone": ({ name, places }: { name: string; places: readonly PlaceOfZone[] }) => ({
    text: `The file gives its zone as "${name}", which means another one in other parts of the world. Which is it?`,
    meaning: places.map((place) => `${name} as in ${PLACES[place]}`),
  }),
  "summer-time": ({ zones }: { zones: readonly string[] }) => ({
    text: "The log skips or repeats an hour as local time does at a change of summer time, but names no zone. In which zone did the clock run?",
    meaning: [
      ...zones.map((zone) => `local time of ${zone} and of the places that change with it`),
      "the clock knew no summer time: the skipped hour is a gap",
    ],
  }),
  "start-line": ({ line }: { line: string }) =>
    withoutStart(`"${line}" may name the start of the log in a way that is not understood. When did it start?`),
  "start-year": () => withoutStart("The clock names the day but not the year. On which date does the log start?"),
  "start-never-set": () =>
    withoutStart("The clock stands at 1970: it was never set, and its stamps count from when it began. When was that?"),
  "start-date": () => withoutStart("The rows carry a time of day but the file names no date. On which date does the log start?"),
  /** `date`: year, month and day as in 2024-05-03. */
  "start-in-name": ({ date }: { date: string }, w) => ({
    text: `The rows carry a time of day; only the name of the file holds a date, ${w.day(date)}. Did the log start on it?`,
    meaning: ["files named by later dates start on those", FROM_FIRST_ROW],
  }),
  "start-beside": ({ files, dated }: { files: readonly string[]; dated: string }) => ({
    text: `${files.join(" and ")} only counts the time from its start, while ${dated} has dates. When did it start?`,
    meaning: [`together with ${dated}`],
  }),
  "two-fields": () => ({
    text: "The elapsed time has two fields. Are they minutes and seconds, or hours and minutes?",
    meaning: [],
  }),
  "two-fields-from-zero": () => ({
    text: "The times have two fields and begin at 00:00. Are they minutes and seconds from the start, or hours and minutes of a day?",
    meaning: [],
  }),
  /** `steps`: from row to row under each option, s. */
  "time-unit": ({ heading, steps }: { heading: string; steps: readonly number[] }, w) => ({
    text: `"${heading}" counts the time, but its unit is written nowhere. What does it count?`,
    meaning: steps.map((step) => `a row every ${w.number(step)} s`),
  }),
  "leaps-to": ({ at, rows }: { at: number; rows: number }, w) => ({
    text: `The clock of the logger leaps to ${w.instant(at)} for ${w.number(rows)} rows. Where do they belong?`,
    meaning: ["they follow the rows beside them without a pause", "they are left out, named by line"],
  }),
  "set-back": ({ by }: { by: readonly number[] }, w) => ({
    text: `The clock of the logger was set back by ${by.map((s) => `${w.number(s)} s`).join(", ")} while rows were written. Which rows have the right time?`,
    meaning: [
      "those before: the rows after it follow them without a pause",
      "those after: the rows before it are as much earlier",
      "both: they are two logs of the same time, and the first row of each instant is kept",
    ],
  }),
  /** `lag`: by which one quantity may follow the other, s; null where both saw the same. */
  "two-clocks": ({ file, against, offset, lag }: { file: string; against: string; offset: Offset; lag: number | null }, w) => ({
    text: `What ${file} and ${against} both saw fits together when ${file} is shifted by ${sayOffset(offset, w)}. Shift it?${
      lag === null ? "" : ` They saw different quantities, of which one may follow the other by up to ${w.number(lag)} s.`
    }`,
    meaning: ["both clocks are right as they are", `${saySigned(offset.value, w)} s are added to every instant of ${file}`],
  }),
} as const satisfies Questions;
