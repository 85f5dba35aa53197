import type { ImportProblem } from "../problems/import-problem";
import { CLOCK_NOTES } from "./clock-note";
import { sayDerivedFlow } from "./derived-flow";
import { sayImportProblem } from "./import-problem";
import { quoted, type Sentences, sayerOf, type Told, type Write } from "./told";

/** Cells of a column that are alike: how many, the line of the first and what stands in it. */
type Cells = { readonly count: number; readonly heading: string; readonly line: number; readonly cell: string };
const cellsAre = (count: number, w: Write) => (count === 1 ? "One cell is" : `${w.number(count)} cells are`);
const first = ({ line, cell }: Cells, w: Write) => `first in line ${w.number(line)}: "${cell}"`;

const TOPICS = {
  scale: "a scale",
  offset: "an offset",
  zone: "the zone of the clock",
  missing: "missing values",
  pulse: "pulses",
  start: "the start",
} as const;

/** What was noticed of the lines and cells of a file, and what was done about it. */
const FILE_NOTES = {
  "left-out": ({ problem }: { problem: ImportProblem }, w) => `Left out: ${sayImportProblem(problem, w.locale)}`,
  "cut-off": ({ file }: { file: string }) =>
    `${file} stops before its packed content is over: what follows is lost. Copy it from the logger again.`,
  "parts-joined": ({ files, twice }: { files: readonly string[]; twice: number }, w) =>
    `${w.number(files.length)} files are parts of one log, in this order: ${files.join(", ")}.${
      twice > 0 ? ` ${w.number(twice)} rows stand in two of them and count once.` : ""
    }`,
  "lent-headings": ({ file, lender }: { file: string; lender: string }) =>
    `${file} has no headings; it goes on with the columns of ${lender}.`,
  "other-table": ({ headings, from, to }: { headings: string; from: number; to: number }, w) =>
    `Lines ${w.number(from)} to ${w.number(to)} above the log are another table (${headings}); they were left out.`,
  "other-table-among": ({ headings, line, rows }: { headings: string; line: number; rows: number }, w) =>
    `Another table of ${w.number(rows)} rows begins in line ${w.number(line)} (${headings}); it was left out.`,
  "unread-line": ({ line, about }: { line: string; about: readonly (keyof typeof TOPICS)[] }) => sayUnread(`line "${line}"`, about),
  "unread-heading": ({ heading, about }: { heading: string; about: readonly (keyof typeof TOPICS)[] }) =>
    sayUnread(`heading "${heading}"`, about),
  comments: ({ count }: { count: number }, w) => `${w.number(count)} comment lines among the rows were passed over.`,
  "repeated-headings": ({ times }: { times: number }, w) => `The headings are written again ${w.number(times)} times among the rows.`,
  footer: ({ from, to }: { from: number; to: number }, w) =>
    `Lines ${w.number(from)} to ${w.number(to)} below the rows are not data and were left out.`,
  "delimiter-changes": ({ count, line }: { count: number; line: number }, w) =>
    `${w.number(count)} rows part their cells with another mark than the rest, first in line ${w.number(line)}; they were read.`,
  "short-rows": ({ count, line }: { count: number; line: number }, w) =>
    `${count === 1 ? "One row ends" : `${w.number(count)} rows end`} before the last column, first in line ${w.number(line)}; what is not there counts as missing.`,
  "nul-bytes": ({ count, line }: { count: number; line: number }, w) =>
    `${w.number(count)} NUL bytes were passed over, first in line ${w.number(line)}.`,
  "surplus-cells": ({ count, line }: { count: number; line: number }, w) =>
    `${w.number(count)} rows have text behind the last column, first in line ${w.number(line)}; it was left out.`,
  "cut-row": ({ line, heading }: { line: number; heading: string }, w) =>
    `The file ends in line ${w.number(line)} behind a delimiter, without a line end: "${heading}" of that row is not known.`,
  "cut-cell": ({ line, cell, heading, endsFile }: { line: number; cell: string; heading: string; endsFile: boolean }, w) => {
    const where = endsFile
      ? `The file ends in "${cell}" of "${heading}" in line ${w.number(line)}`
      : `Line ${w.number(line)} breaks off in "${cell}" of "${heading}"`;
    return `${where}, shorter than every other number there: left out.`;
  },
} as const satisfies Sentences;

const sayUnread = (what: string, about: readonly (keyof typeof TOPICS)[]) =>
  `The ${what} seems to speak of ${about.map((topic) => TOPICS[topic]).join(" and ")}; its words are not understood, and nothing of it was applied unasked.`;

const BOUNDS = { "coldest-air": "the coldest air ever measured", vacuum: "a perfect vacuum" } as const;

/** What was noticed of whole columns and their values, and what was done about it. */
const COLUMN_NOTES = {
  devices: ({ count, by }: { count: number; by: string }, w) =>
    `Rows of ${w.number(count)} devices or places stand in one table; they are told apart by "${by}".`,
  "one-device": ({ name, by, others }: { name: string; by: string; others: number }, w) =>
    `Only the rows of ${name} by "${by}" are read; those of ${w.number(others)} others are left out.`,
  "long-form": ({ channels, by }: { channels: number; by: string }, w) =>
    `One value a row; ${w.number(channels)} channels are told apart by "${by}".`,
  "times-across": ({
    from,
    to,
    downFirst,
    fromOne,
    left,
  }: {
    from: string;
    to: string;
    downFirst: boolean;
    fromOne: boolean;
    left: readonly string[];
  }) => {
    const each = downFirst ? "a date, each row a time of day" : "a time of day, each row a date";
    const hour = fromOne ? " Hour 1 is the one from midnight." : "";
    return `Each column from ${quoted([from, to], " to ")} is ${each}: read as one channel.${hour}${left.length === 0 ? "" : ` Left out: ${quoted(left)}.`}`;
  },
  "own-times": ({ groups }: { groups: number }, w) => `Each of ${w.number(groups)} groups of columns goes by a time column of its own.`,
  "columns-gone": ({ line, headings }: { line: number; headings: readonly string[] }, w) =>
    `From line ${w.number(line)} on the file has no column ${quoted(headings)}.`,
  "columns-come": ({ line, headings }: { line: number; headings: readonly string[] }, w) =>
    `From line ${w.number(line)} on the file has further columns, which are left out: ${quoted(headings)}.`,
  "unread-column": ({ heading, cell }: { heading: string; cell: string }) =>
    `"${heading}" was left out: its cells ("${cell}") are no numbers in the form of this file.`,
  "slow-channel": ({ headings }: { headings: readonly string[] }) =>
    `${quoted(headings)}: written more rarely than the other columns; the blanks between are no missing values.`,
  "on-change": ({ heartbeat }: { heartbeat: number | null }, w) =>
    heartbeat === null
      ? "The logger writes when something changes; a silence is no gap, the last value holds. A logger that was off for a while would look the same."
      : `The logger writes when something changes, at the latest every ${w.number(heartbeat)} s; a silence is no gap, the last value holds.`,
  "held-blanks": ({ headings }: { headings: readonly string[] }) =>
    `${quoted(headings)}: written only when the value changed, for no cell repeats the one before; in a blank the last value holds.`,
  "rhythm-not-plain": () =>
    "Between rows at one interval lie many silences, over which the values move no more than from row to row: rows were lost, or the logger writes on change. Read as sampled, with gaps.",
  "beyond-limit": (cells: Cells, w) =>
    `${cellsAre(cells.count, w)} only said to lie below or above a limit in "${cells.heading}" and taken for missing, ${first(cells, w)}.`,
  "bad-cells": (cells: Cells, w) => `${cellsAre(cells.count, w)} no number in "${cells.heading}" and left out, ${first(cells, w)}.`,
  "marked-cells": (cells: Cells, w) =>
    `${cells.count === 1 ? "One number carries" : `${w.number(cells.count)} numbers carry`} a mark in "${cells.heading}" and count as read, ${first(cells, w)}.`,
  "bad-quality": ({ count, heading, line, said, by }: { count: number; heading: string; line: number; said: string; by: string }, w) =>
    `${count === 1 ? "One value is" : `${w.number(count)} values are`} marked "${said}" in "${by}" and left out of "${heading}", first in line ${w.number(line)}.`,
  sentinel: ({ mark, heading }: { mark: number; heading: string }, w) =>
    `${w.number(mark)} in "${heading}" is taken for a missing value: it stands far from all others, or the lines above the table say so.`,
  "late-sentinel": ({ mark, heading, count }: { mark: number; heading: string; count: number }, w) =>
    `${w.number(mark)} in "${heading}" stands far from all other values and is taken for a missing one (${w.number(count)} times).`,
  "impossible-values": ({ count, heading, bound }: { count: number; heading: string; bound: keyof typeof BOUNDS }, w) =>
    `${count === 1 ? "One value" : `${w.number(count)} values`} of "${heading}" below ${BOUNDS[bound]} ${count === 1 ? "is" : "are"} no reading and left out.`,
  "derived-flow": sayDerivedFlow,
} as const satisfies Sentences;

const READING_NOTES = { ...FILE_NOTES, ...COLUMN_NOTES, ...CLOCK_NOTES } as const;

/** What was noticed and handled while reading. */
export type ReadingNote = Told<typeof READING_NOTES>;
export const sayReadingNote = sayerOf(READING_NOTES);

/** Notes that say one thing in several ways, by the kind that the findings document gives them. */
const DOCUMENT_KINDS: Partial<Record<ReadingNote["kind"], string>> = {
  "other-table-among": "other-table",
  "cut-row": "cut-cell",
  "unread-heading": "unread-line",
  "one-device": "devices",
  "late-sentinel": "sentinel",
  "one-stamp": "coarse-stamps",
  "same-instants": "clocks-agree",
  "set-back": "clock-jump",
  "stretch-twice": "clock-jump",
  "stood-still": "clock-jump",
};
export const noteKind = ({ kind }: ReadingNote): string => DOCUMENT_KINDS[kind] ?? kind;
