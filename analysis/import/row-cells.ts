import Papa from "papaparse";
import { stripLabels } from "./labelled-cells";
import { type LineForm, withoutForm } from "./line-form";

/** How a line falls into cells. */
export type Separator =
  /**
   * `pairsFrom`: from this cell on every two cells are one number, the delimiter being its decimal mark too. `stampAt`: this cell and the next are one
   * stamp that holds the delimiter ("Nov 17, 2023 06:40:00").
   */
  | { readonly kind: "character"; readonly character: string; readonly pairsFrom?: number; readonly stampAt?: number }
  /** Runs of at least so many blanks. `stamp`: cells from `at` on that are one stamp with blanks in it ("2024-05-01 10:00:00 PM"). */
  | { readonly kind: "spaces"; readonly least: 1 | 2; readonly stamp: { readonly at: number; readonly count: number } | null }
  /** Columns by their place in the line: column i reaches from starts[i] to starts[i + 1], counted in characters. */
  | { readonly kind: "fixed-width"; readonly starts: readonly number[] };

/** `form`: what every line has beside its cells. `labels`: the names that cells carry in front of their values ("flow=12"). */
export type CellFormat = {
  readonly separator: Separator;
  readonly quote: '"' | "'";
  readonly form?: LineForm;
  readonly labels?: readonly (string | null)[];
};

/** The cells of one row, trimmed, quotes gone. The row may hold line ends inside its quotes. Linear in its length. */
export function splitRow(given: string, format: CellFormat): string[] {
  const cells = cellsOf(given, format);
  return format.labels === undefined ? cells : stripLabels(cells, format.labels);
}

function cellsOf(given: string, format: CellFormat): string[] {
  const row = format.form === undefined ? given : withoutForm(given, format.form);
  const { separator, quote } = format;
  if (separator.kind === "fixed-width") return cutByPlace(row, separator.starts);
  if (separator.kind === "spaces") return joinStamp(splitSpaces(row, separator.least, quote), separator.stamp);
  const cells = row.includes(quote) ? splitQuoted(row, separator.character, quote) : row.split(separator.character);
  return joinCutStamp(joinPairs(cells.map(tidyCell), separator), separator);
}

function splitQuoted(row: string, delimiter: string, quote: string): string[] {
  const cells = parseQuoted(row, delimiter, quote);
  const spaced = cells.some((cell) => cell.startsWith(" ") && cell.trimStart().startsWith(quote));
  if (!spaced) return cells;
  // A blank before the opening quote makes the quote part of the value for papaparse; a person does not see it so.
  return parseQuoted(
    row
      .split(`${delimiter} ${quote}`)
      .join(delimiter + quote)
      .trimStart(),
    delimiter,
    quote,
  );
}

function parseQuoted(row: string, delimiter: string, quote: string): string[] {
  // "\u001e" never ends a row here: the caller has cut the rows already, line ends that are left stand inside quotes.
  const parsed = Papa.parse<string[]>(row, { delimiter, quoteChar: quote, escapeChar: quote, newline: "\r\n" });
  return parsed.data.length === 1 ? parsed.data[0] : parsed.data.flat();
}

function splitSpaces(row: string, least: 1 | 2, quote: string): string[] {
  const text = row.trim();
  if (text === "") return [""];
  if (text.includes(quote) && least === 1) return splitQuoted(text.replace(/\s+/g, " "), " ", quote).map(tidyCell);
  return text.split(least === 1 ? /\s+/ : /\t+|\s{2,}/).map(tidyCell);
}

function joinPairs(cells: string[], { character, pairsFrom }: Separator & { kind: "character" }): string[] {
  if (pairsFrom === undefined || !cells.slice(pairsFrom).every((cell) => /^[+-]?\d*$/.test(cell))) return cells;
  const joined = cells.slice(0, pairsFrom);
  for (let i = pairsFrom; i < cells.length; i += 2) joined.push(i + 1 < cells.length ? `${cells[i]}${character}${cells[i + 1]}` : cells[i]);
  return joined;
}

/** Only a cell that ends in a month and day or is a weekday goes with the next: a heading stays as it is. */
function joinCutStamp(cells: string[], { stampAt }: Separator & { kind: "character" }): string[] {
  if (stampAt === undefined || !isHalfStamp(cells[stampAt] ?? "", cells[stampAt + 1] ?? "")) return cells;
  return [...cells.slice(0, stampAt), `${cells[stampAt]}, ${cells[stampAt + 1]}`, ...cells.slice(stampAt + 2)];
}

/** "Nov 17" before "2023 06:40:00", "Fri" before "17 Nov 2023 06:40:00": a comma that belongs to the date. */
export const isHalfStamp = (cell: string, next: string): boolean =>
  /^\p{L}{2,10}\.?(?: \d{1,2})?$/u.test(cell) &&
  /\b(?:19|20)\d{2}\b/.test(next) &&
  /^\d/.test(next) &&
  (/\d/.test(cell) || /\p{L}{3}/u.test(next));

function joinStamp(cells: string[], stamp: { readonly at: number; readonly count: number } | null): string[] {
  if (stamp === null || cells.length < stamp.at + stamp.count) return cells;
  if (!isStampPart(cells[stamp.at]) || !isStampPart(cells[stamp.at + stamp.count - 1])) return cells;
  return [...cells.slice(0, stamp.at), cells.slice(stamp.at, stamp.at + stamp.count).join(" "), ...cells.slice(stamp.at + stamp.count)];
}

const isStampPart = (cell: string) => /\d/.test(cell) || /^[ap]\.?m\.?$/i.test(cell);

/** Each word goes to the column with which it shares most places, so that a heading wider than its column is not cut. */
function cutByPlace(row: string, starts: readonly number[]): string[] {
  const cells = starts.map(() => "");
  let column = 0;
  for (const word of row.matchAll(/\S+/g)) {
    const end = word.index + word[0].length;
    while (column + 1 < starts.length && starts[column + 1] <= word.index) column++;
    let home = column;
    let most = 0;
    for (let i = column; i < starts.length && starts[i] < end; i++) {
      const shared = Math.min(end, starts[i + 1] ?? end) - Math.max(word.index, starts[i]);
      if (shared > most) {
        most = shared;
        home = i;
      }
    }
    cells[home] += cells[home] === "" ? word[0] : ` ${word[0]}`;
  }
  return cells.map(tidyCell);
}

/** A cell in the quotes of a word processor, which no table means. */
const withoutTypographicQuotes = (cell: string): string =>
  (cell.startsWith("\u201c") || cell.startsWith("\u201e")) && /[\u201c\u201d]$/.test(cell) && cell.length > 1
    ? cell.slice(1, -1).trim()
    : cell;

/** A typographic minus or dash before a number. */
const MINUS_SIGN = /^[\u2212\u2013\ufe63\uff0d]\s?[\d.,]/;
/** Marks of writing direction and width, which system libraries put into dates and nobody sees. */
const INVISIBLE = /[\u200b-\u200f\u202a-\u202e\u2060-\u2064\ufeff]/g;
const FORMULA_TEXT = /^="(.*)"$/s;
/** Trimmed; a value written as a formula so that a spreadsheet keeps it as text (="52.3", '52.3) is the value. */
function tidyCell(cell: string): string {
  const trimmed = withoutTypographicQuotes(cell.replace(INVISIBLE, "").trim());
  const text = MINUS_SIGN.test(trimmed) ? `-${trimmed.slice(1)}` : trimmed;
  if (text.startsWith('="')) return FORMULA_TEXT.exec(text)?.[1] ?? text;
  return text.startsWith("'") && /^'[\d+-]/.test(text) && !text.endsWith("'") ? text.slice(1) : text;
}

/** Whether a quote opened in this text is still open at its end: the row goes on in the next line. */
export function endsInsideQuotes(text: string, format: CellFormat): boolean {
  if (format.separator.kind !== "character" || format.form !== undefined || !text.includes(format.quote)) return false;
  const { quote } = format;
  const delimiter = format.separator.character;
  let at = 0;
  while (at <= text.length) {
    while (text[at] === " ") at++;
    if (text[at] !== quote) {
      const next = text.indexOf(delimiter, at);
      if (next < 0) return false;
      at = next + 1;
      continue;
    }
    let close = text.indexOf(quote, at + 1);
    while (close >= 0 && text[close + 1] === quote) close = text.indexOf(quote, close + 2);
    if (close < 0) return true;
    const next = text.indexOf(delimiter, close);
    if (next < 0) return false;
    at = next + 1;
  }
  return false;
}
