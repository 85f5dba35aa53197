import { type OrderInWords, sayDateOrder } from "./date-order";
import { LOGGERS_TIME } from "./instant";
import { type Sentences, sayerOf, type Told } from "./told";

/** A column by its heading, or by its place (0-based) where it has none. */
export type NamedColumn = { readonly heading: string; readonly index: number };

/** What a column of numbers counts, where the file does not name the unit of an elapsed time itself. */
const SCALES = {
  "unix-seconds": "Unix seconds",
  "unix-milliseconds": "Unix milliseconds",
  "unix-microseconds": "Unix microseconds",
  "unix-nanoseconds": "Unix nanoseconds",
  "seconds-since-1904": "seconds since 1904",
  "ticks-since-1601": "tenths of microseconds since 1601",
  "ticks-since-year-1": "tenths of microseconds since the year 1",
  "modified-julian-days": "modified Julian days",
  "julian-days": "Julian days",
  "days-from-year-0": "days counted from year 0",
  "spreadsheet-1900": "spreadsheet day numbers (1900)",
  "spreadsheet-1904": "spreadsheet day numbers (1904)",
} as const;
/** `unit` and `since` as the file writes them. */
export type ScaleInWords = keyof typeof SCALES | { readonly unit: string; readonly since: string | null };

function sayScale(scale: ScaleInWords): string {
  if (typeof scale === "string") return SCALES[scale];
  return scale.since === null ? `elapsed ${scale.unit}` : `${scale.unit} since ${scale.since}`;
}

/** How a column is written: by the letters of its form, or by the order of its date. */
type Form = { readonly letters: string } | { readonly order: OrderInWords };
const sayForm = (form: Form) => ("letters" in form ? form.letters : sayDateOrder(form.order));
const afterStart = (isAfterStart: boolean) => (isAfterStart ? " after the start that the file names" : "");

/** From what the clock of a file is read. */
const CLOCK_READINGS = {
  stamps: ({ columns, zone }: { columns: readonly (NamedColumn & { readonly form: Form })[]; zone: string | null }, w) => {
    const names = columns.map(({ heading, index, form }) => `${heading === "" ? `column ${index + 1}` : heading} (${sayForm(form)})`);
    const several = columns.length > 1 ? `, ${w.number(columns.length)} columns` : "";
    return `${names.join(" and ")}${several}, ${zone ?? LOGGERS_TIME}`;
  },
  "a-column-each": ({ headings }: { headings: readonly string[] }) => `${headings.join(", ")}: a column each`,
  thousandths: ({ heading }: { heading: string }) => `with thousandths from ${heading}`,
  numbers: ({ heading, index, scale, isAfterStart }: NamedColumn & { readonly scale: ScaleInWords; readonly isAfterStart: boolean }) =>
    `${heading === "" ? `Column ${index + 1}` : heading}: ${sayScale(scale)}${afterStart(isAfterStart)}`,
  elapsed: ({ heading, isAfterStart }: { heading: string; isAfterStart: boolean }) => `${heading}: elapsed time${afterStart(isAfterStart)}`,
  "time-of-day": ({ heading, date }: { heading: string; date: "unknown" | "above" | "in-name" }) =>
    `${heading}: time of day, ${{ unknown: "date not known", above: "date from the lines above the table", "in-name": "date from the file's name" }[date]}`,
  "day-of-year": ({ heading, year }: { heading: string; year: number | null }) =>
    `${heading}: day of the year${year === null ? ", year not known" : ` ${year}`}`,
  counted: ({ interval, hasStart, isAssumed }: { interval: number; hasStart: boolean; isAssumed: boolean }, w) =>
    `no time column: ${hasStart ? "start and " : ""}interval of ${w.number(interval)} s, ${isAssumed ? "assumed" : "as the file says"}`,
} as const satisfies Sentences;

export type ClockInWords = Told<typeof CLOCK_READINGS>;
const sayPart = sayerOf(CLOCK_READINGS);
/** All that a clock is read from, in one line. */
export const sayClockReading = (parts: readonly ClockInWords[], locale: string | null): string =>
  parts.map((part) => sayPart(part, locale)).join(", ");
