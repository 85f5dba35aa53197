import { type CellKind, cellKind } from "./cell-kind";
import type { TextRow } from "./find-format";
import type { NumberFormat } from "./number-format";

/**
 * What most cells of a column are. `seldom`: times that stand in few rows, once for several of them or as a list beside the log; `hasTime`: other times
 * stand in most.
 */
export type Signature = {
  readonly count: number;
  readonly kinds: readonly CellKind[];
  readonly seldom: readonly boolean[];
  readonly hasTime: boolean;
};

/** The first rows of a file, what their cells look like, and where the rows of data begin among them. */
export type HeadTable = {
  readonly rows: readonly TextRow[];
  readonly kinds: readonly (readonly CellKind[])[];
  readonly signature: Signature;
  /** Index into `rows`. */
  readonly firstData: number;
  /** Row starts with a mark for comments (#, //, %, ...), as the data rows never do. */
  readonly isComment: (row: TextRow) => boolean;
};

/** Marks that open a comment line; common practice, no source. A mark alone in its cell is a heading ("#" for the number of the row). */
const COMMENT_MARK = /^\s*"?(?:#+|\/\/+|%|!|\*+|;+|--\s|REM\b)/i;

/** Whether a row is a comment: its first cell opens with a mark and holds more than the mark. */
export function isCommentRow(text: string, cells: readonly string[]): boolean {
  const mark = COMMENT_MARK.exec(text);
  return mark !== null && cells[0] !== "" && (cells.length === 1 || cells[0].length > mark[0].trim().length);
}

/** Finds the rows of data: the shape of rows that holds most numbers and times, and its first row. Null where no row holds a number. */
export function findHeadTable(rows: readonly TextRow[], format: NumberFormat): HeadTable | null {
  const kinds = rows.map(({ cells }) => cells.map((cell) => cellKind(cell, format)));
  const isComment = (row: TextRow) => isCommentRow(row.text, row.cells);
  const signature = findSignature(rows, kinds, isComment);
  if (signature === null) return null;
  const firstData = firstMatch(rows, kinds, signature);
  return firstData < 0 ? null : { rows, kinds, signature, firstData, isComment };
}

function findSignature(
  rows: readonly TextRow[],
  kinds: readonly (readonly CellKind[])[],
  isComment: (row: TextRow) => boolean,
): Signature | null {
  const weights = new Map<number, number>();
  for (let i = 0; i < rows.length; i++) {
    if (isComment(rows[i])) continue;
    const typed = kinds[i].filter((kind) => kind === "number" || kind === "time").length;
    const filled = kinds[i].filter((kind) => kind !== "missing").length;
    if (typed === 0 || typed * 3 < filled) continue;
    weights.set(kinds[i].length, (weights.get(kinds[i].length) ?? 0) + typed * (kinds[i].includes("time") ? 2 : 1));
  }
  const best = [...weights].reduce((top, entry) => (entry[1] > top[1] ? entry : top), [0, 0]);
  if (best[1] === 0) return null;
  const ofWidth = (count: number) => {
    const isBlank = (row: readonly CellKind[]) => row.every((kind) => kind === "missing");
    const body = rows.flatMap((row, i) => (kinds[i].length === count && !isComment(row) && !isBlank(kinds[i]) ? [kinds[i]] : []));
    // The later half is surely data; the earlier may hold headings and a preamble padded to the width of the table.
    return signatureOf(body.slice(Math.floor(body.length / 2)), count);
  };
  const usual = ofWidth(best[0]);
  const wider = [...weights.keys()].filter((count) => count > best[0]).map(ofWidth);
  return wider.find((wide) => isCutShort(rows, kinds, usual, wide)) ?? usual;
}

/**
 * Rows that leave out the cells at their end where nothing new is known, or columns that came in mid-file: headings are as wide as the full rows, and
 * the others begin alike.
 */
function isCutShort(rows: readonly TextRow[], kinds: readonly (readonly CellKind[])[], usual: Signature, wide: Signature): boolean {
  const headed = rows.some(({ cells }, i) => cells.length === wide.count && isAllWords(cells, kinds[i]));
  return headed && wide.hasTime && usual.kinds.every((kind, i) => kind === wide.kinds[i]);
}

/** Words in every cell, as headings have them. */
export const isAllWords = (cells: readonly string[], kinds: readonly CellKind[]): boolean =>
  cells.every((cell) => cell !== "") && kinds.every((kind) => kind === "text");

function signatureOf(body: readonly (readonly CellKind[])[], count: number): Signature {
  const kinds = Array.from({ length: count }, (_, column): CellKind => {
    const tally = { number: 0, time: 0, missing: 0, text: 0 };
    for (const row of body) tally[row[column]]++;
    if (tally.number + tally.time + tally.text === 0) return "missing";
    if (tally.time > 0 && tally.time >= tally.text && tally.time >= tally.number) return "time";
    return tally.number >= tally.text ? "number" : "text";
  });
  const seldom = kinds.map((kind, column) => kind === "time" && 2 * body.filter((row) => row[column] === "time").length < body.length);
  return { count, kinds, seldom, hasTime: kinds.some((kind, column) => kind === "time" && !seldom[column]) };
}

/** Whether a row looks like the rows of data. */
export function matchesSignature(kinds: readonly CellKind[], signature: Signature): boolean {
  if (kinds.length < Math.min(2, signature.count)) return false;
  let numbers = 0;
  let wrong = 0;
  for (let i = 0; i < Math.min(kinds.length, signature.count); i++) {
    const expected = signature.kinds[i];
    if (signature.seldom[i]) continue;
    // a date that stands only where it changes, beside a time of its own
    if (expected === "time" && kinds[i] !== "time" && !(kinds[i] === "missing" && kinds.includes("time"))) return false;
    if (expected !== "number") continue;
    if (kinds[i] === "number") numbers++;
    else if (kinds[i] !== "missing") wrong++;
  }
  if (!signature.hasTime) return wrong === 0 && numbers > 0 && kinds.length === signature.count;
  return wrong <= numbers;
}

const LOOKED_AHEAD = 6;

/**
 * First row that looks like data and is followed by rows that mostly do. A short table of another kind may stand above the log ("Time,Code,Text"
 * of two alarms): rows without one wrong cell are looked for first, and the rows right above them that still look like data belong to them.
 */
function firstMatch(rows: readonly TextRow[], kinds: readonly (readonly CellKind[])[], signature: Signature): number {
  const strict = firstRun(rows, kinds, (row) => isWhole(row, signature));
  const loosely = (row: readonly CellKind[]) => matchesSignature(row, signature);
  let first = strict < 0 ? firstRun(rows, kinds, loosely) : strict;
  if (first < 0) return kinds.findIndex(loosely);
  while (first > 0 && loosely(kinds[first - 1])) first--;
  return first;
}

function firstRun(
  rows: readonly TextRow[],
  kinds: readonly (readonly CellKind[])[],
  matches: (row: readonly CellKind[]) => boolean,
): number {
  for (let i = 0; i < kinds.length; i++) {
    if (!matches(kinds[i])) continue;
    const next = kinds.slice(i, i + LOOKED_AHEAD).filter((_, k) => rows[i + k].text.trim() !== "");
    if (next.filter(matches).length * 2 > next.length) return i;
  }
  return -1;
}

/** Looks like data, and no cell is of another kind than the rest of its column. */
const isWhole = (kinds: readonly CellKind[], signature: Signature): boolean =>
  matchesSignature(kinds, signature) &&
  kinds.every((kind, i) => i >= signature.count || kind === "missing" || signature.kinds[i] === "missing" || kind === signature.kinds[i]);
