import type { ArchiveDamage, ImportProblem, TooLarge } from "../problems/import-problem";
import { formatNumber } from "../units/format-quantity";

const LISTED = 12;
/** A name from a file is shown so far: a broken file makes a heading of a whole page. */
const LONGEST = 80;
const cut = (name: string) => (name.length <= LONGEST ? name : `${name.slice(0, LONGEST)}...`);
const list = (names: readonly string[]) =>
  names.length === 0
    ? "none"
    : names
        .slice(0, LISTED)
        .map((name) => `"${cut(name)}"`)
        .join(", ") + (names.length > LISTED ? ` and ${names.length - LISTED} more` : "");

const SIZES = {
  "packed-size": "its packed size in bytes",
  "unpacked-size": "its unpacked size in bytes",
  entries: "the number of its files",
  "workbook-size": "the workbook's size in bytes",
  "workbook-unpacked-size": "the workbook's unpacked size in bytes",
} as const;
const sayTooLarge = (what: TooLarge, locale: string) =>
  typeof what === "string"
    ? SIZES[what]
    : `a line of ${formatNumber(what.characters, 0, locale)} characters (${formatNumber(what.columns, 0, locale)} columns)`;

const DAMAGES = {
  "no-log": "it holds no .csv, .txt, .log, .dat or .xlsx file",
  "cut-before-content": "it stops before the first of its content",
  "check-sum": "its check sum does not fit its content: some of its numbers are wrong",
} as const;
function sayDamage(why: ArchiveDamage): string {
  if (typeof why === "string") return DAMAGES[why];
  return cut("entry" in why ? `the check sum of ${why.entry} does not fit: some of its numbers are wrong` : why.message);
}

/** What is wrong, where, and what to do next. A new id does not compile until it has a sentence. */
export function sayImportProblem(p: ImportProblem, locale: string | null): string {
  switch (p.id) {
    case "no-files":
      return "No file was given. Bring in the logger's CSV, text, .zip or .xlsx file.";
    case "stopped":
      return "Reading was stopped before the end; nothing was kept. Bring the file in again to read it whole.";
    case "cannot-open":
      return `${p.file} could not be opened (${cut(p.why)}). Check that it is still there and that you may read it.`;
    case "empty-file":
      return `${p.file} is empty. Export the log from the logger again and bring in the new file.`;
    case "not-text":
      return `${p.file} is not a text file. Export the log as CSV or text and bring that in.`;
    case "no-table":
      return `${p.file} holds no rows with numbers in columns, looked for from line ${p.row} on. Export the readings themselves, one row for each instant.`;
    case "header-only":
      return `${p.file} ends after its headings in line ${p.row} (${list(p.headings)}): there are no readings below. Check that the logger was recording, and export again.`;
    case "no-time-column":
      return `${p.file} has no column that reads as a time, from line ${p.row} on. Columns: ${list(p.headings)}. Pick the time column, or enter start and interval.`;
    case "one-column":
      return `${p.file} has one column only ("${cut(p.heading)}", from line ${p.row}) and no instant for its values. Export it with the time, or enter start and interval.`;
    case "no-values":
      return `${p.file} has no column of numbers beside the time, from line ${p.row} on. Columns: ${list(p.headings)}. Export the measured values with it.`;
    case "too-large":
      return `${p.file} is refused: ${sayTooLarge(p.what, locale ?? "en")} is above the limit of ${formatNumber(p.limit, 0, locale ?? "en")}. Split it and bring in the parts together.`;
    case "damaged-archive":
      return `${p.file} cannot be unpacked (${sayDamage(p.why)}). Copy it from the logger again, or unpack it yourself and bring in the CSV files.`;
    case "unknown-column":
      return `There is no column "${cut(p.heading)}". Columns: ${list(p.headings)}. Use a heading as the file writes it.`;
    case "unknown-answer":
      return `"${cut(p.answer)}" is no answer to "${cut(p.question)}". Possible: ${list(p.options)}.`;
    case "unasked":
      return `Nothing asks "${cut(p.question)}", and an answer to it changes nothing. Questions: ${list(p.raised)}.`;
  }
}
