import type { ColumnText } from "../columns/column-reading";
import { foldWord } from "./calendar-words";
import { readDuration } from "./elapsed-time";
import { readStamp } from "./stamp-text";

/** What the cells of a column look like to a clock. */
export type CellKind = "stamp" | "date" | "time" | "duration" | "half" | "number" | "text" | "empty";

export type ColumnProfile = {
  readonly column: ColumnText;
  readonly kind: CellKind;
  /** Share of the filled cells that are of this kind. */
  readonly share: number;
  /** Numbers of the sample, NaN where a cell is none; empty unless kind is "number". */
  readonly numbers: Float64Array;
  /** Steps between following numbers: how many rise, fall, stay. */
  readonly rises: number;
  readonly falls: number;
  readonly stays: number;
  /** Heading and units cell, folded. */
  readonly words: string;
};

const PLAIN = /^[+-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?$/i;

/** "+12,5" as 12.5; NaN where the cell is no plain number. Marks between thousands are taken out first. */
export function plainNumber(cell: string, decimal: "." | ",", thousands: string | null): number {
  const bare = thousands === null ? cell : cell.split(thousands).join("");
  if (!PLAIN.test(bare) || (decimal === "." && bare.includes(","))) return Number.NaN;
  return Number(decimal === "," ? bare.replace(",", ".") : bare);
}

const DOTTED = /^(?:[01]?\d|2[0-3])\.[0-5]\d(?:\.[0-5]\d)?(?:,\d+)?(?:\s?(?:uhr|h))?$/i;
const TIME_OF_DAY = /\b(?:time|uhrzeit|zeit|heure|hora|ora|tijd|uur)\b/;

/** Says what a column's cells look like, from up to 200 of them spread over the sample. */
export function profileColumn(column: ColumnText, decimal: "." | ",", thousands: string | null): ColumnProfile {
  const words = foldHeading(column);
  const counts: Record<CellKind, number> = { stamp: 0, date: 0, time: 0, duration: 0, half: 0, number: 0, text: 0, empty: 0 };
  const step = Math.max(1, Math.floor(column.sample.length / 200));
  for (let i = 0; i < column.sample.length; i += step) counts[cellKind(column.sample[i], decimal, thousands)]++;
  // a spreadsheet leaves the midnight out of a stamp, a logger leaves seconds out: the fuller form names the column
  if (counts.stamp > 0) mergeInto(counts, "stamp", ["date"]);
  if (counts.duration > 0) mergeInto(counts, "duration", ["time"]);
  const filled = Object.values(counts).reduce((a, b) => a + b, 0) - counts.empty;
  if (counts.number === filled && isSixDigitDate(column, words)) mergeInto(counts, "date", ["number"]);
  // "10.15.30" is a date by its look; under the heading of a time it is a time
  if (TIME_OF_DAY.test(words) && column.sample.every((cell) => cell === "" || DOTTED.test(cell)))
    mergeInto(counts, "time", ["date", "text", "stamp"]);
  let kind: CellKind = "empty";
  for (const k of Object.keys(counts) as CellKind[]) if (k !== "empty" && counts[k] > (kind === "empty" ? 0 : counts[kind])) kind = k;
  const numbers =
    kind === "number" ? Float64Array.from(column.sample, (cell) => plainNumber(cell, decimal, thousands)) : new Float64Array(0);
  return { column, kind, share: filled === 0 ? 0 : counts[kind] / filled, numbers, ...countSteps(numbers), words };
}

const DATE_WORD = /\b(?:date|datum|fecha|data|dia|jour|dag|tag)\b/;
const DATE_FORM = /\b(?:ddmmyy|mmddyy|yymmdd|ttmmjj|jjmmaa|ddmmaa)\b/;

/** "140324" under the heading of a date: every cell a date of two digits each. */
const isSixDigitDate = (column: ColumnText, words: string): boolean =>
  (DATE_WORD.test(words) || DATE_FORM.test(words)) &&
  column.sample.every((cell) => cell === "" || (/^\d{6}$/.test(cell) && ORDERS.some((order) => readStamp(cell, order) !== null)));

const ORDERS = ["dmy", "mdy", "ymd", "ydm"] as const;

export const foldHeading = (column: ColumnText): string =>
  foldWord(`${column.heading} ${column.unitsCell ?? ""}`.replace(/([a-z])([A-Z])/g, "$1 $2"))
    .replace(/[_\-[\](){}:;,/]+|(?<=\p{L})\.(?=\p{L}{2})/gu, " ")
    .replace(/\s+/g, " ")
    .trim();

function mergeInto(counts: Record<CellKind, number>, into: CellKind, from: readonly CellKind[]): void {
  for (const kind of from) {
    counts[into] += counts[kind];
    counts[kind] = 0;
  }
}

function cellKind(cell: string, decimal: "." | ",", thousands: string | null): CellKind {
  if (cell === "" || /^(nan|null|n\/?a|#n\/a|-+|\?+)$/i.test(cell)) return "empty";
  if (/^\d{8}(?:\d{4}(?:\d{2}(?:\d{3})?)?)?$/.test(cell)) {
    const stamp = readStamp(cell, "dmy") ?? readStamp(cell, "mdy");
    if (stamp !== null) return cell.length > 8 ? "stamp" : "date";
  }
  if (!Number.isNaN(plainNumber(cell, decimal, thousands))) return "number";
  const c = cell.charCodeAt(0);
  if (!/\d/.test(cell)) return /^[ap]\.? ?m\.?$/i.test(cell) ? "half" : "text";
  if (c === 45 || c === 43) return readDuration(cell) === null ? "text" : "duration";
  for (const order of ORDERS) {
    const stamp = readStamp(cell, order);
    if (stamp === null) continue;
    if (Number.isNaN(stamp.days)) return "time";
    return Number.isNaN(stamp.seconds) ? "date" : "stamp";
  }
  return readDuration(cell) === null ? "text" : "duration";
}

function countSteps(numbers: Float64Array): { rises: number; falls: number; stays: number } {
  let [rises, falls, stays] = [0, 0, 0];
  let last = Number.NaN;
  for (const value of numbers) {
    if (Number.isNaN(value)) continue;
    if (value > last) rises++;
    else if (value < last) falls++;
    else if (value === last) stays++;
    last = value;
  }
  return { rises, falls, stays };
}
