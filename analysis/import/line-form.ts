/**
 * What is taken off or out of a line before it falls into cells: quotes round all of it, the brackets of a list ("('10:00',3.5),"), a mark that ends
 * each row and is no delimiter, or marks of repetition, which are no quotes.
 */
export type LineForm = "quotes" | "brackets" | "ended" | "repetition";

const QUOTED = /^\s*".*"\s*$/s;
/** A list of values in one pair of brackets, in a statement of SQL or by itself. */
const LIST = /^\s*(?:insert\s[^'"]*?\bvalues\s*)?[([{]([^()[\]{}]*[,;|\t][^()[\]{}]*)[)\]}]\s*[,;]?\s*$/i;
/** The names of the columns before the values. */
const NAMES = /^\s*insert\s+into\s[^(]*\(([^()]*)\)\s*values\s*$/i;
/** A mark in a cell of its own that says the same as the cell above. */
const REPEATED = /(^|[,;\t|])[ \u00a0]*(?:"|\u3003|\u2033|\u201d|\u201c|\u201e|do\.|ditt?o|idem)[ \u00a0]*(?=[,;\t|]|$)/g;
/** A mark behind the last number of a row: "18.0;", "17.8.". */
const ENDED = /^(.*\d[.,]\d+)[;.]\s*$/s;
/** Share of the lines that have a form. */
const SHARE = 0.5;
/** One lone quote is the end of a longer text. */
const FEWEST_REPEATED = 2;

const count = (lines: readonly string[], form: RegExp) => lines.filter((line) => line.search(form) >= 0).length;

/** The form that lines have beside their cells; null where they have none. */
export function lineFormOf(lines: readonly string[], isOneCell: boolean, delimiter: string | null): LineForm | null {
  if (count(lines, LIST) > SHARE * lines.length) return "brackets";
  if (isOneCell && lines.length > 1 && count(lines, QUOTED) === lines.length) return "quotes";
  // lines of remarks among them stand without quotes
  if (lines.filter(isQuotedRow).length > SHARE * lines.length) return "quotes";
  if (delimiter !== ";" && count(lines, ENDED) > SHARE * lines.length) return "ended";
  const repeated = lines.filter((line) => line.search(REPEATED) >= 0);
  // a lone quote that ends a text of several lines has its partner in another line
  const isOpen = (line: string) => line.split('"').length % 2 === 0 && line.search(REPEATED) < 0;
  return repeated.length >= FEWEST_REPEATED && !lines.some(isOpen) ? "repetition" : null;
}

/** One pair of quotes round several cells. */
function isQuotedRow(line: string): boolean {
  const text = line.trim();
  const inside = text.slice(1, -1).replaceAll('""', "");
  return text.startsWith('"') && text.endsWith('"') && !inside.includes('"') && /[,;\t|]/.test(inside);
}

/** The line as its cells stand in it. */
export function withoutForm(line: string, form: LineForm): string {
  if (form === "quotes") return QUOTED.test(line) ? line.trim().slice(1, -1).replaceAll('""', '"') : line.trim();
  if (form === "ended") return ENDED.exec(line)?.[1] ?? line;
  if (form === "repetition") return line.replace(REPEATED, "$1");
  return (LIST.exec(line) ?? NAMES.exec(line))?.[1] ?? line;
}
