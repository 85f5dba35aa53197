import { plainStamp } from "./clock/stamp-marks";
import { LONGEST_STAMP } from "./clock/stamp-text";
import { isBeyondLimit, isMissing, type NumberFormat, parseNumber } from "./number-format";

export type CellKind = "number" | "time" | "missing" | "text";

const NUMERIC_DATE =
  /^(?:\p{L}{2,10}[.,]{0,2}\s+)?(?:\d{1,4}[-/.\s]\d{1,2}[-/.\s]\d{1,4}|\d{4}:\d{2}:\d{2}(?=\s))(?:[T\s,_-]+\d{1,2}[:.h](?:\d{1,2}(?:[:.]\d{1,2})?(?:[.,:]\d+)?)?(?:\s?[\p{L}([][\p{L}\d.+:/)\]_-]{0,40}|\s?[+-]\d{2}:?\d{2})?)?\.?$/iu;
const COMPACT_STAMP = /^(?:19|20)\d{6}[T\s_-]?\d{4,6}(?:[.,]\d+)?Z?$/i;
const SHORT_STAMP = /^\d{6}[T\s_-]\d{6}$/;
const TIME_OF_DAY =
  /^[-+\u2212]?(?:T|\d+\s?(?:d|days?|\.)\s?)?\d{1,4}:\d{2}(?::\d{2}(?:[.,:]\d+)?)?\s?(?:[ap]\.?\s?m\.?)?(?:Z|[+-]\d{2}:?\d{2})?$/i;
const NAMED_DATE =
  /^(?:[\p{L}.]{2,10},?\s+)?(?:\d{1,4}[-./\s]*(?:de\s)?[\p{L}]{3,10}\.?[-./,\s]*(?:de\s)?\d{2,4}|\p{L}{3,10}\.?\s\d{1,2},?\s\d{2,4})(?:[:,T\s_-]+[^;|\t]*)?$/iu;
/** Day and month without their year right before a time of day: "14.09. 06:00:00". */
const YEARLESS = /^\d{1,2}[./-]\d{1,2}\.?[T\s,]+\d{1,2}[:h]\d{2}(?::\d{2}(?:[.,]\d+)?)?$/;
/** The time first: "05:50:00 26-Jun-2023", "10:15 PM, 05/06/2023". */
const TIME_FIRST =
  /^\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?(?:\s?[ap]\.?m\.?)?[\s,]{1,3}\d{1,4}[-/.\s]{1,2}(?:\d{1,2}|\p{L}{3,10})[-/.,\s]{1,2}\d{2,4}$/iu;
const ISO_ODD = /^\d{4}-?(?:W\d{2}-?\d|\d{3})(?:T[^;|\t]*)?$/;

/**
 * What a trimmed cell looks like by itself, before any column is known. Only a first glance: the clock and the columns are settled by
 * their own readers. "12.05" is a number here though it could be a time of day.
 */
export function cellKind(cell: string, format: NumberFormat): CellKind {
  if (isMissing(cell) || isBeyondLimit(cell)) return "missing";
  if (cell.length > LONGEST_STAMP) return "text";
  if (!Number.isNaN(parseNumber(cell, format))) return "number";
  return looksLikeTime(cell) ? "time" : "text";
}

/** Whether a cell is written as a date, a time of day or both. */
export function looksLikeTime(given: string): boolean {
  const cell = plainStamp(given);
  if (!/\d/.test(cell)) return false;
  return [NUMERIC_DATE, TIME_OF_DAY, COMPACT_STAMP, SHORT_STAMP, NAMED_DATE, YEARLESS, TIME_FIRST, ISO_ODD].some((form) => form.test(cell));
}
