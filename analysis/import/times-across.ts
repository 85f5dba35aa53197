import type { ReadingNote } from "../../shared/wording/reading-note";
import type { ClockReading } from "./clock/clock-reading";
import { mostRegular, possibleOrders } from "./clock/date-order";
import { stampSeconds } from "./clock/stamp";
import { readStamp } from "./clock/stamp-text";
import { spacedWords } from "./columns/column-facts";
import type { ColumnText, FileContext } from "./columns/column-reading";
import { guessRole } from "./columns/column-role";
import { NO_VALUES } from "./columns/column-values";
import { readColumns } from "./columns/read-columns";
import { unitInHeading } from "./columns/unit-from-text";
import type { ImportChoices } from "./import-choices";
import { isMissing, type NumberFormat, parseNumber } from "./number-format";
import type { PlannedColumn } from "./table-plan";

/** Several instants in each row: the instant of a value is what its row says and what its column says, added up. */
export type TimesAcross = {
  /** What all the columns hold. */
  readonly heading: string;
  /** Indexes of the columns of values, in the order of time. */
  readonly columns: readonly number[];
  /** What the heading of each adds to the clock of the row, s. */
  readonly offsets: readonly number[];
  /** Down a column before along a row: the headings are dates, the rows are times of day. */
  readonly downFirst: boolean;
  /** Hours that are counted from 1. */
  readonly fromOne: boolean;
};

const FEWEST = 4;
const DAY = 86400;
const HOUR_NAME = "(?:h|hr|he|hour|stunde|std|heure|hora|ora|uur)";
const TIME = "\\d{1,2}(?:[:h]\\d{2}(?::\\d{2})?)(?:\\s?[ap]\\.?m\\.?)?|\\d{1,2}\\s?[ap]\\.?m\\.?";
/** "00:00", "1 pm", "00:00-01:00", "H1", "hour 13", "7h", "7": a time of day at the beginning or the end of a heading. */
const LABEL = new RegExp(
  `(?:^|\\s)(?:(${TIME})(?:\\s?(?:-|–|to|bis)\\s?(?:${TIME}))?|${HOUR_NAME}[ ._-]?(\\d{1,2})|(\\d{1,2})(?:\\s?(?:h|uhr|hrs?))?)$`,
  "i",
);

type Label = { readonly rest: string; readonly seconds: number; readonly counted: boolean };

/** The time of day that a heading ends in, and what stands before it. Null where it ends in none. */
function labelOf(heading: string): Label | null {
  const match = LABEL.exec(heading);
  if (match === null) return null;
  const rest = heading.slice(0, match.index).trim();
  if (match[1] === undefined) return { rest, seconds: 3600 * Number(match[2] ?? match[3]), counted: true };
  const text = /^\d{1,2}\s?[ap]/i.test(match[1]) ? match[1].replace(/^\d+/, "$&:00") : match[1];
  const stamp = readStamp(text, "dmy");
  return stamp === null || Number.isNaN(stamp.seconds) ? null : { rest, seconds: stamp.seconds, counted: false };
}

/**
 * A row a day with its hours across, or a row an hour of the day with the days across. Null where the headings are no even run of times or dates, or
 * the rows do not have the other half of the instant.
 */
export function findTimesAcross(
  texts: readonly ColumnText[],
  clock: ClockReading,
  preamble: readonly string[],
  numbers: NumberFormat,
): TimesAcross | null {
  if (clock.columns.length !== 1) return null;
  const [row] = clock.columns;
  const values = texts.filter((text) => text.index > row && holdsNumbers(text, numbers));
  const others = texts.filter((text) => text.index !== row && !values.includes(text));
  // a column of names would make several channels of it
  if (values.length < FEWEST || others.some(({ sample }) => new Set(sample).size > 1)) return null;
  const heading = (common: string) => common || headingOf(texts[row], preamble, values);
  const instants = texts[row].sample.map((cell) => clock.parse([cell])).filter((t) => !Number.isNaN(t));
  if (clock.kind === "civil" && instants.every((t) => t % DAY === 0)) {
    const hours = hoursAcross(values);
    return hours === null ? null : { ...hours, heading: heading(hours.heading) };
  }
  if (clock.kind !== "elapsed" || !clock.rollsOverMidnight || clock.start !== null) return null;
  const days = daysAcross(values);
  return days === null ? null : { ...days, heading: heading(days.heading) };
}

function holdsNumbers({ sample }: ColumnText, numbers: NumberFormat): boolean {
  const filled = sample.filter((cell) => !isMissing(cell));
  return filled.length > 0 && filled.filter((cell) => !Number.isNaN(parseNumber(cell, numbers))).length * 2 >= filled.length;
}

function hoursAcross(values: readonly ColumnText[]): TimesAcross | null {
  const all = values.map(({ heading }) => labelOf(heading));
  const labels = all.filter((label): label is Label => label !== null);
  const [first] = labels;
  // means and extremes of the day may stand behind its hours
  if (labels.length < FEWEST || all.slice(0, labels.length).includes(null)) return null;
  if (labels.some(({ rest, counted }) => rest !== first.rest || counted !== first.counted)) return null;
  const offsets = labels.map(({ seconds }) => seconds);
  if (!isEven(offsets) || offsets[offsets.length - 1] - offsets[0] >= DAY) return null;
  const fromOne = first.counted && offsets[0] === 3600;
  // numbers alone are hours only where they are all the hours of a day
  if (first.counted && (labels.length !== 24 || (offsets[0] !== 0 && !fromOne))) return null;
  return {
    heading: first.rest,
    columns: values.slice(0, labels.length).map(({ index }) => index),
    offsets: fromOne ? offsets.map((offset) => offset - 3600) : offsets,
    downFirst: false,
    fromOne,
  };
}

function daysAcross(values: readonly ColumnText[]): TimesAcross | null {
  const cells = values.map(({ heading }) => heading);
  const orders = possibleOrders(cells);
  const readings = orders.map((order) =>
    Float64Array.from(cells, (cell) => {
      const stamp = readStamp(cell, order);
      return stamp === null || !Number.isNaN(stamp.seconds) ? Number.NaN : stampSeconds(stamp);
    }),
  );
  const chosen = orders.length === 1 ? 0 : mostRegular(readings);
  const offsets = Array.from(readings[chosen ?? 0] ?? []);
  if (chosen === null || offsets.length < FEWEST || !isEven(offsets)) return null;
  return { heading: "", columns: values.map(({ index }) => index), offsets, downFirst: true, fromOne: false };
}

const isEven = (offsets: readonly number[]): boolean => {
  const step = offsets[1] - offsets[0];
  return step > 0 && offsets.every((offset, i) => i === 0 || offset - offsets[i - 1] === step);
};

/** The corner of the table or a line above it that names a quantity; else the headings from the first to the last. */
function headingOf(corner: ColumnText, preamble: readonly string[], values: readonly ColumnText[]): string {
  const named = [corner.heading, ...preamble].find((text) => {
    const { role, by } = guessRole(spacedWords(text), unitInHeading(text)?.unit ?? null, NO_VALUES);
    return role !== "other" && by !== "none";
  });
  return named ?? `${values[0].heading} to ${values[values.length - 1].heading}`;
}

/** The columns of a table of several instants a row: those of its values are one quantity, other numbers (means of the day) are left out. */
export function columnsAcross(
  planned: readonly PlannedColumn[],
  texts: readonly ColumnText[],
  { heading, columns }: TimesAcross,
  context: FileContext,
  choices: ImportChoices,
): readonly PlannedColumn[] {
  const [first] = columns;
  const sample = texts[first].sample.flatMap((_, row) => columns.map((index) => texts[index].sample[row]));
  const [reading] = readColumns([{ index: first, heading, unitsCell: texts[first].unitsCell, sample }], context, choices);
  return planned.map((column) => {
    if (columns.includes(column.index)) return { ...column, reading, use: "number" };
    return column.use === "number" ? { ...column, use: "text" } : column;
  });
}

/** How such a table is read, and what of it is not. */
export function noteAcross(
  { columns, downFirst, fromOne }: TimesAcross,
  texts: readonly ColumnText[],
  planned: readonly PlannedColumn[],
): ReadingNote {
  const [from, to] = [columns[0], columns[columns.length - 1]].map((index) => texts[index].heading);
  const rest = planned.filter(
    ({ use, index, reading }) => use === "text" && reading.role !== "time" && index > columns[columns.length - 1],
  );
  return { kind: "times-across", from, to, downFirst, fromOne, left: rest.map((column) => column.heading) };
}

/** The clock of the rows with what the headings add: where these are dates, the rows need none. */
export const clockAcross = (clock: ClockReading, { downFirst }: TimesAcross): ClockReading =>
  downFirst
    ? { ...clock, kind: "civil", rollsOverMidnight: false, questions: clock.questions.filter(({ id }) => id !== "start-time") }
    : clock;
