import { formatNumber } from "../units/format-quantity";
import { sayCount } from "./reading-progress";

/** The page before there is a log, and the ways a log comes in. */
export const START_WORDS = {
  title: "Bring in the log of a pumped water system",
  about:
    "A pressure log is enough; flow, pump speed or motor current beside it show more. Any table a logger writes as text will do. The files stay on this device: nothing is sent anywhere.",
  sample: "Open the sample visit",
  sampleIs: "An invented site with three faults, to look around with.",
  sampleMissing: "The sample visit could not be fetched. Start the page again with its own command, or bring in a log of your own.",
  kept: "Visits kept in this browser",
  willStand: "What will stand here",
  trace: "The trace of every channel, with what was going on marked under it.",
  /** Before the explained words, and after them. */
  findings: ["What the log shows: starts and", ", the state of the tank; and what it cannot show."],
  /** As they stand within that sentence. */
  terms: { "short-cycle": "short cycles", oscillation: "oscillation", drift: "drift", "leak-down": "leak-down" },
  next: "What is behind it, weighed, and what to check, change and bring on the next visit, with the amounts.",
} as const;

export const PICKER_WORDS = {
  bringIn: "Bring in a log",
  other: "Bring in other files",
  hint: "Or drop files anywhere on this page, or paste a table. Several files become one record.",
  files: "Log files to bring in",
  anyFiles: "Log files",
  letGo: "Let go to bring it in",
  paste: "Paste a table as text",
  rows: "Rows with their headings, as copied from a spreadsheet or a text file",
  readPasted: "Read what I pasted",
} as const;

export const READING_WORDS = {
  name: "Reading",
  reading: "Reading",
  workingOut: "Working out what it shows:",
  share: "Share of the files read",
  stop: "Stop",
  working: "Working",
  percent: (percent: number) => `${percent} percent read`,
  ofBytes: (read: string, all: string) => `${read} of ${all}`,
} as const;

export const REFUSED_WORDS = {
  refused: "This cannot be read as a log",
  broken: "Evenhead itself failed here",
  stoppedWith: (message: string) => `It stopped with "${message}". The files are unharmed.`,
  askedFor: "Asked for:",
  nothingTaken: "Nothing was taken over.",
  asItWas: "The visit on this page is as it was.",
  without: (file: string) => `Read the others without ${file}`,
  back: "Go back",
  backToVisit: "Go back to the visit",
  whichTime: "Which column holds the time?",
  noneOfThem: "none of them",
  withColumn: "Read it with this column",
  howOften: "How often was a row written?",
  firstRow: "When was the first row? (if known)",
  withInterval: "Read it with this interval",
} as const;

export const QUESTION_WORDS = {
  open: (count: number) => (count === 1 ? "One thing the files do not say" : `${count} things the files do not say`),
  assumed: "Assumed:",
  answerThem: "Answer them",
  leave: "Leave it as assumed",
  assumedUntil: "Assumed until you say otherwise:",
  yourAnswer: "Your answer:",
  orWrite: "or write it",
  takeBack: "Take the answer back",
} as const;

/** How the files were understood, open to change. */
export const REVIEW_WORDS = {
  readingAgain: "Reading again with what you chose.",
  canBeChanged: "Everything below can be changed; the page follows at once.",
  onlyYou: "What only you can know",
  columnsOf: "Columns of",
  linesOf: "Lines of",
  linesOfFile: (file: string) => `Lines of ${file}`,
  clock: "Clock",
  rows: "Rows",
  noticed: "Noticed on the way",
  takeAllBack: "Take back all my changes",
} as const;

export const COLUMN_WORDS = {
  noHeading: (place: number) => `column ${place}, no heading`,
  is: "is",
  in: "in",
  standsFor: (heading: string) => `What ${heading} stands for`,
  unitOf: (heading: string) => `Unit of ${heading}`,
  unitNotKnown: "unit not known",
  takeBack: "Take back",
  noNumbers: "no numbers",
  range: (low: string, high: string) => `${low} to ${high}`,
} as const;

export const FILE_HEAD_WORDS = {
  line: "Line",
  takenFor: "Taken for",
  inFile: "As the file has it",
  between: "lines in between not shown",
  showMore: (count: number) => `Show ${count} more data lines`,
} as const;

export const ZONE_WORDS = {
  label: "Zone of the logger's clock",
  example: "Europe/Lisbon",
  unknown: "No zone has this name. Write a place such as Europe/Lisbon, or an offset such as +02:00.",
  hint: "A place such as Europe/Lisbon, or an offset such as +02:00. Stamps that carry an offset of their own keep it.",
} as const;

/** The record in numbers: rows, clock, and what was left out. */
export const RECORD_WORDS = {
  firstRow: "First row",
  lastRow: "Last row",
  whoseTime: "Whose time",
  oneRowEvery: "One row every",
  readOff: "How it was read",
  record: (rows: number, files: number, length: string, locale: string | null) =>
    `${sayCount(rows, "row", "rows", locale)} from ${files === 1 ? "one file" : `${files} files`}, over ${length}.`,
  rows: (
    rows: { readonly accepted: number; readonly rejected: number; readonly duplicate: number; readonly reordered: number },
    locale: string | null,
  ) =>
    `${[
      `${sayCount(rows.accepted, "row", "rows", locale)} read`,
      rows.rejected === 0 ? "none left out" : `${sayCount(rows.rejected, "line", "lines", locale)} left out`,
      ...(rows.duplicate === 0 ? [] : [`${sayCount(rows.duplicate, "row", "rows", locale)} twice there and used once`]),
      ...(rows.reordered === 0 ? [] : [`${sayCount(rows.reordered, "row", "rows", locale)} put in order of time`]),
    ].join(", ")}.`,
  showFirst: (count: number) => `Show the first ${count} lines left out`,
  showAll: "Show the lines left out",
  line: (row: number, locale: string | null) => `Line ${formatNumber(row, 0, locale)}`,
  of: " of ",
  nothing: "Nothing was noticed.",
  more: (count: number, locale: string | null) => `and ${formatNumber(count, 0, locale)} more, all marked under the trace`,
} as const;

/** Corrections that are remembered by the headings of a log. */
export const CORRECTIONS_WORDS = {
  offer: "You corrected a log with these headings before",
  take: "Read this one the same way",
  leave: "Leave it as it was read",
  none: "Where you correct how a log was read, that is remembered here and offered for the next log with the same headings.",
  change: "Change",
  changeThis: (point: string) => `Change "${point}"`,
  done: "Done",
  otherAnswer: "Remembered answer",
  forget: "Forget",
  forgetThis: (point: string) => `Forget "${point}"`,
  delete: "Delete",
  deleteThese: (headings: string) => `Delete the corrections for ${headings}`,
  putBack: "Put back what was deleted",
  save: "Save the corrections as a file",
  bringBack: "Bring back corrections from a file",
  file: "File of corrections to bring back",
  noneIn: (file: string) => `${file} holds no corrections.`,
  broughtBack: (count: number) => `Brought back for ${count} kinds of log.`,
  keepsNothing: "This browser keeps nothing, so nothing was brought back.",
} as const;
