import { ImportError } from "../../shared/problems/import-problem";
import type { ImportQuestion } from "../../shared/record/import-question";
import { looksLikeTime } from "./cell-kind";
import type { NumberFormat } from "./number-format";
import type { Separator } from "./row-cells";

export type NumberFormatReading = { readonly format: NumberFormat; readonly question: ImportQuestion | null };

/**
 * The mark that groups, where a column holds bare numbers below a thousand beside marked ones: written with three decimals throughout, it would have
 * the mark in every number. Null where no column shows it.
 */
function groupingMark(columns: readonly (readonly string[])[], mark: string): string | null {
  const shows = columns.some((column) => {
    const bare = column.filter((cell) => /^[+-]?\d+$/.test(cell));
    const marked = column.filter((cell) => cell.includes(mark) && /^[+-]?[\d.,]+$/.test(cell));
    return marked.length > 0 && bare.length > 0 && bare.every((cell) => Math.abs(Number(cell)) < 1000);
  });
  return shows ? mark : null;
}

/** What the marks inside the numbers of a file speak for. */
type Evidence = {
  commaDecimal: number;
  pointDecimal: number;
  commaGroups: number;
  pointGroups: number;
  comma3: number;
  point3: number;
  otherGroups: string | null;
  bare: number;
};

const DIGITS = /^[+-]?\d[\d.,'’\u00a0\u202f\u2009 ]*/;
/** So few digits before the mark are no stamp without its marks ("202405011015.5"). */
const ONE_MARK = /^[+-]?(\d{1,7})([.,])(\d+)$/;
const ONLY_NUMBER = /^[+-]?\d[\d.,'’\u00a0\u202f\u2009 ]*(?:[eE][+-]?\d+)?\s*[\p{L}%°/²³]*\d?$/u;

/**
 * Decimal and thousands mark from the cells of a table, together: a mark twice in a number groups, the last of two different marks is the
 * decimal one, a mark not followed by exactly three digits is decimal. Where each mark is followed by three digits both readings fit, and
 * the question is asked, unless only one of them gives values that a water system can have. Columns with their cells; some thousands are enough.
 */
export function findNumberFormat(
  columns: readonly (readonly string[])[],
  separator: Separator,
  answer: string | undefined,
  isPlausible: (format: NumberFormat) => boolean,
): NumberFormatReading {
  const seen: Evidence = {
    commaDecimal: 0,
    pointDecimal: 0,
    commaGroups: 0,
    pointGroups: 0,
    comma3: 0,
    point3: 0,
    otherGroups: null,
    bare: 0,
  };
  for (const column of columns) for (const cell of column) weigh(cell, seen);
  if (answer !== undefined) {
    if (answer !== "," && answer !== ".") throw new ImportError({ id: "unknown-answer", question: "decimal", answer, options: [",", "."] });
    return { format: withDecimal(answer, seen), question: null };
  }
  const dotted = columns.some((column) => column.slice(0, 20).some((cell) => /^\d{1,2}\.\d{1,2}\.\d{2,4}\b/.test(cell)));
  const decided = decide(seen, separator, dotted);
  if (decided.question === null) return decided;
  const grouping = groupingMark(columns, decided.question.options[0]);
  if (grouping !== null) return { format: withDecimal(grouping === "," ? "." : ",", seen), question: null };
  const likely = ([",", "."] as const).map((decimal) => withDecimal(decimal, seen)).filter(isPlausible);
  if (likely.length === 1) return { format: likely[0], question: null };
  // Dotted dates come from where the comma is decimal; common practice, no source.
  return dotted && decided.question.options[0] === "," ? { format: withDecimal(",", seen), question: null } : decided;
}

function weigh(cell: string, seen: Evidence): void {
  // most cells are such, and no time is
  const one = ONE_MARK.exec(cell);
  if (one !== null) {
    single(one[1], one[2] === "," ? "," : ".", one[3], false, seen);
    return;
  }
  if (!ONLY_NUMBER.test(cell) || looksLikeTime(cell)) return;
  const digits = DIGITS.exec(cell)?.[0].trim() ?? "";
  const grouped = /\d(['’\u00a0\u202f\u2009 ])\d{3}(?!\d)/.exec(digits);
  if (grouped !== null) seen.otherGroups ??= grouped[1] === "'" || grouped[1] === "’" ? "'" : " ";
  const commas = digits.split(",").length - 1;
  const points = digits.split(".").length - 1;
  if (commas === 0 && points === 0) seen.bare++;
  else if (commas > 0 && points > 0) {
    const last = digits.lastIndexOf(",") > digits.lastIndexOf(".") ? "," : ".";
    if (last === ",") seen.commaDecimal += 3;
    else seen.pointDecimal += 3;
    if (last === ",") seen.pointGroups++;
    else seen.commaGroups++;
  } else if (commas > 1) seen.commaGroups += 3;
  else if (points > 1) seen.pointGroups += 3;
  else {
    const mark = commas === 1 ? "," : ".";
    const [whole, fraction] = digits.replace(/^[+-]/, "").split(mark);
    single(whole, mark, fraction, EXPONENT.test(cell), seen);
  }
}

/** A number before an exponent is never grouped: "3,008E+00". */
const EXPONENT = /\d[eE][+-]?\d/;

/** One mark in the number. */
function single(whole: string, mark: "," | ".", fraction: string, hasExponent: boolean, seen: Evidence): void {
  const couldGroup = !hasExponent && /^\d{3}$/.test(fraction) && /^[1-9]\d{0,2}$/.test(whole);
  if (couldGroup) seen[mark === "," ? "comma3" : "point3"]++;
  else seen[mark === "," ? "commaDecimal" : "pointDecimal"]++;
}

const withDecimal = (decimal: "." | ",", seen: Evidence): NumberFormat => {
  const other = decimal === "." ? "," : ".";
  const groups = decimal === "." ? seen.commaGroups + seen.comma3 : seen.pointGroups + seen.point3;
  return { decimal, thousands: seen.otherGroups ?? (groups > 0 ? other : null) };
};

function decide(seen: Evidence, separator: Separator, dottedDates: boolean): NumberFormatReading {
  const comma = seen.commaDecimal + seen.pointGroups;
  const point = seen.pointDecimal + seen.commaGroups;
  if (comma > 0 || point > 0) return { format: withDecimal(comma > point ? "," : ".", seen), question: null };
  if (seen.comma3 > 0 && seen.point3 === 0) return ambiguous(",", seen);
  // A point with three digits behind it is decimal to every reader, unless the file is from where points group: semicolons and dotted dates.
  const bySemicolon = separator.kind === "character" && separator.character === ";";
  if (seen.point3 > 0 && seen.comma3 === 0 && bySemicolon && dottedDates) return ambiguous(".", seen);
  return { format: withDecimal(".", seen), question: null };
}

/** Each number has one mark with exactly three digits behind it. Numbers with and without it side by side speak for groups. */
function ambiguous(mark: "," | ".", seen: Evidence): NumberFormatReading {
  const marked = mark === "," ? seen.comma3 : seen.point3;
  const other = mark === "," ? "." : ",";
  const groupsLikelier = seen.bare > 0 && marked < seen.bare;
  const assumed = groupsLikelier ? other : mark;
  const question: ImportQuestion = {
    id: "decimal",
    asks: { kind: "decimal", between: mark },
    options: [mark, other],
    assumed,
  };
  return { format: withDecimal(assumed, seen), question };
}
