import type { DateOrderClue } from "../../../shared/wording/date-order";
import type { ColumnText } from "../columns/column-reading";
import { calendarWord, weekdayOf } from "./calendar-words";
import type { ClockHints } from "./clock-hints";
import type { ColumnProfile } from "./column-profile";
import { possibleOrders } from "./date-order";
import { orderOfSibling } from "./date-sibling";
import { dateInName } from "./named-date";
import { stampsIn, toldSeconds } from "./preamble-clock";
import { type DateOrder, stampSeconds } from "./stamp";
import { readStamp } from "./stamp-text";

/** What settles the order of day and month, and to which. */
export type Clue = { readonly order: DateOrder; readonly by: DateOrderClue };

/** An order, and the words of the file that show it. */
type Told = { readonly order: DateOrder; readonly text: string };

const witnessed = (kind: "written-alike" | "own-words" | "locale" | "column", order: DateOrder, witness: string): Clue => ({
  order,
  by: { kind, order, witness },
});

export const secondsIn = (cell: string, order: DateOrder): number => {
  const stamp = readStamp(cell, order);
  return stamp === null ? Number.NaN : stampSeconds(stamp);
};

/** Headings of a language whose dates have the day first; common practice, no source. */
export const writesDayFirst = ({ headings }: ClockHints): boolean =>
  /\b(?:datum|uhrzeit|zeit|zeitstempel|druck|durchfluss|heure|horodatage|pression|d[ée]bit|fecha|hora|presi[óo]n|caudal|press[ãa]o|vaz[ãa]o|ora|pressione|portata|tijd|tijdstip|debiet)\b|druck\b/i.test(
    headings.join(" "),
  );

export function clueOfOrder(
  profile: ColumnProfile,
  cells: readonly string[],
  possible: readonly DateOrder[],
  hints: ClockHints,
): Clue | null {
  const { order } = hints.told;
  if (order !== null && possible.includes(order)) return { order, by: { kind: "spelt", order } };
  const first = profile.column.sample.find((cell) => cell !== "") ?? "";
  // whatever stands before it, and with an apostrophe for the century
  if (/(?<![\d.])\d{1,2}\.\d{1,2}\.(?:\d{4}|['\u2019]\d{2})(?!\d)/.test(first)) return { order: "dmy", by: { kind: "dots" } };
  const sibling = orderOfSibling(first, possible, hints.told);
  if (sibling !== null) return witnessed("written-alike", sibling.order, sibling.text);
  const locale = orderOfLocale(possible, hints);
  if (locale !== null) return locale;
  const beside = orderFromColumns(cells, possible, profile.column.index, hints);
  if (beside !== null) return beside;
  const told = orderFromTold(cells, possible, hints);
  if (told !== null) return witnessed("own-words", told.order, told.text);
  return null;
}

/**
 * Decimal commas leave the day first, unless a date can have the year first and no word of the file speaks for a language: of the languages and countries
 * that write them none puts the month first. Source: Unicode CLDR 48, by the platform. Halves of the day speak against it.
 */
export function orderOfComma(cells: readonly string[], possible: readonly DateOrder[], hints: ClockHints): Clue | null {
  const clear = possible.includes("dmy") && (!possible.some((order) => order.startsWith("y")) || writesDayFirst(hints));
  if (hints.context.decimal !== "," || !clear || /\d\s?[ap]\.?m\.?/i.test(cells[0] ?? "")) return null;
  return { order: "dmy", by: { kind: "decimal-commas" } };
}

const LOCALE = /\b(?:locale|culture|language|sprache|langue|idioma|lingua|taal|region)\b[^\p{L}]{1,6}([a-z]{2}[-_][A-Z]{2})\b/iu;

/** The order in which the locale that the file names writes its dates, by the platform's own tables. */
function orderOfLocale(possible: readonly DateOrder[], { context }: ClockHints): Clue | null {
  const named = context.preamble.flatMap((line) => LOCALE.exec(line)?.[1] ?? [])[0];
  const parts = named === undefined ? [] : formatOf(named.replace("_", "-")).formatToParts(0);
  const letters = parts.flatMap(({ type }) => (type === "day" || type === "month" || type === "year" ? [type[0]] : [])).join("");
  const order = possible.find((one) => one === letters);
  return order === undefined || named === undefined ? null : witnessed("locale", order, named);
}

function formatOf(locale: string): Intl.DateTimeFormat {
  try {
    return new Intl.DateTimeFormat(locale);
  } catch {
    return new Intl.DateTimeFormat("und");
  }
}

/** What a cell says of the day its row was written, by day of the week, month or a date that reads in one way; null where it says nothing. */
type DayTest = (day: number) => boolean;

function dayTest(cell: string): DayTest | null {
  // 1970-01-01 was a Thursday
  const weekday = /^\p{L}{2,10}(?:\.|-feira)?$/u.test(cell) ? weekdayOf(cell) : null;
  if (weekday !== null) return (day) => (((day + 3) % 7) + 7) % 7 === weekday;
  const word = calendarWord(cell);
  if (word?.kind === "month") return (day) => new Date(day * 86_400_000).getUTCMonth() + 1 === word.month;
  const unix = /^1\d{9}(?:\.\d+)?$/.test(cell) ? Number(cell) : /^1\d{12}$/.test(cell) ? Number(cell) / 1000 : null;
  const seconds = unix ?? (/^\d{4}-\d{2}-\d{2}/.test(cell) ? secondsIn(cell, "ymd") : Number.NaN);
  // another zone moves it by most of a day
  return Number.isNaN(seconds) ? null : (day) => Math.abs(day - Math.floor(seconds / 86400)) <= 1;
}

/** The one order in which every date is the day that another column says: a weekday, a month, an unmistakable stamp. */
function orderFromColumns(cells: readonly string[], possible: readonly DateOrder[], own: number, { columns }: ClockHints): Clue | null {
  for (const column of columns) {
    if (column.index === own || !saysDays(column)) continue;
    const fits = possible.filter((order) =>
      cells.every((cell, row) => {
        const day = Math.floor(secondsIn(cell, order) / 86400);
        const test = dayTest(column.sample[row] ?? "");
        return test === null || Number.isNaN(day) || test(day);
      }),
    );
    if (fits.length === 1) return witnessed("column", fits[0], column.heading);
  }
  return null;
}

const saysDays = ({ sample }: ColumnText): boolean => {
  const filled = sample.filter((cell) => cell !== "");
  return filled.length > 0 && filled.every((cell) => dayTest(cell) !== null);
};

const YEAR = /(?<!\d)(?:19|20)\d{2}(?!\d)/g;

/** A date of the preamble or the file name that can be read in one way only, and fits the first or last row in one order only. */
function orderFromTold(cells: readonly string[], possible: readonly DateOrder[], hints: ClockHints): Told | null {
  const named = dateInName(hints.context.file);
  const stamps = hints.told.stamps.filter((s) => s.hasDate);
  stamps.push(...(hints.context.below ?? []).flatMap(stampsIn).filter(({ hasDate }) => hasDate));
  if (named !== null) stamps.push({ text: named, role: "plain", hasDate: true, hasTime: false });
  const ranges = possible.map((order) => rangeOf(cells, order));
  for (const stamp of stamps) {
    if (possibleOrders([stamp.text]).length !== 1) continue;
    const day = Math.floor(toldSeconds(stamp, possibleOrders([stamp.text])[0]).seconds / 86400);
    const fits = possible.filter((_, k) => {
      const [from, to] = ranges[k];
      return Math.floor(from / 86400) === day || Math.floor(to / 86400) === day;
    });
    if (fits.length === 1) return { order: fits[0], text: stamp.text };
    const before = stamp.role === "written" ? possible.filter((_, k) => Math.floor(ranges[k][1] / 86400) <= day) : [];
    if (before.length === 1) return { order: before[0], text: stamp.text };
  }
  const years = new Set([...stamps.map(({ text }) => text), hints.context.file].flatMap((text) => text.match(YEAR) ?? []));
  const ofYears = possible.filter((_, k) => ranges[k].every((t) => years.has(String(new Date(t * 1000).getUTCFullYear()))));
  return ofYears.length === 1 ? { order: ofYears[0], text: [...years].join(", ") } : null;
}

export function rangeOf(cells: readonly string[], order: DateOrder): readonly [number, number] {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const cell of cells) {
    const seconds = secondsIn(cell, order);
    if (seconds < from) from = seconds;
    if (seconds > to) to = seconds;
  }
  return [from, to];
}
