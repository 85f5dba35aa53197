import { findUnit } from "../../shared/units/unit-table";

/** How a file writes its numbers. */
export type NumberFormat = { readonly decimal: "." | ","; readonly thousands: string | null };

/**
 * Words for "no value here", lower case. Common practice of loggers and spreadsheets, no source; IEEE 754 names (NaN, Inf); spreadsheet
 * error values (ISO/IEC 29500 part 1, 18.17.3).
 */
const WRITTEN = [
  "-|--|---|----|-----|–|—|.|..|...|*|**|***|****|*****|?|??|???|x|xx|xxx|xxxx|/|//|_|__|___|nan|-nan|+nan|nan(ind)|-nan(ind)|1.#qnan",
  "-1.#ind|1.#inf|-1.#inf|1.#ind|#num|qnan|inf|+inf|-inf|infinity|-infinity|∞|na|n/a|n.a.|n.a|<na>|<null>|<nan>|<none>|#n/a|#n/a n/a|#na",
  "#value!|#wert!|#valeur!|#div/0!|#ref!|#num!|#name?|#null!|#nv|#err|#error|null|nil|none|(null)|\\n|undefined|void|empty",
  "blank|missing|miss|mv|nodata|no data|no-data|no_data|no value|no reading|ol|o.l|o.l.|0l|+ol|-ol|overload|over|ovr|ovfl",
  "overflow|ovrflw|over range|overrange|over-range|ovrng|or|ur|hi|lo|hh|ll|high|low|under|under range|underrange",
  "under-range|udr|undr|err|error|err.|e|fault|flt|fail|failed|failure|bad|bad value|bad quality|invalid|inval|inv|invld",
  "open|open circuit|short|short circuit|sensor fault|sensor error|sensor fail|no sensor|no signal|nosig|burnout|brn",
  "disconnected|unplugged|timeout|comm|comm err|comm error|comms|comms lost|offline|off-line|off line|lost|not available",
  "not connected|unavailable|unknown|n/c|nc|skip|skipped|fehler|fehlt|kein wert|keine daten|ungültig|überlauf|störung|k.a.",
  "k. a.|erreur|défaut|pas de données|invalide|manquant|error de lectura|sin dato|sin datos|fallo|nulo|falta|errore|guasto",
  "mancante|nessun dato|erro|falha|sem dados|fout|geen data|geen waarde|ongeldig|storing",
];
const MISSING_WORDS: ReadonlySet<string> = new Set(["", ...WRITTEN.flatMap((line) => line.split("|"))]);

/** Whether a cell, trimmed, stands for a missing value. */
export const isMissing = (cell: string): boolean => MISSING_WORDS.has(cell.toLowerCase());

/** "<0.5", "> 16": beyond what the meter can tell; the limit is no reading. */
export const isBeyondLimit = (cell: string): boolean => /^(?:[<>≤≥]=?|&[lg]t;)\s?[-+]?[\d.,]+/.test(cell);

/** Nearly all numbers where the comma is decimal. */
const PLAIN_COMMA = /^[+-]?\d{1,25}(?:,\d{1,25})?$/;

/** Counts of a converter as programs write them to base 16. */
const HEXADECIMAL = /^0x[\da-f]{1,8}$/i;

const PLAIN = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/;

/**
 * The number a cell holds, NaN where it holds none. Understands a leading plus, exponents (also Fortran's D), a Unicode minus, grouped digits where
 * every group has three, a unit or a mark stuck to the value ("52.3psi", "52.3 *"); nothing else: "12-5" is no number.
 */
export function parseNumber(text: string, format: NumberFormat): number {
  const cell = text.trim();
  if (format.decimal === "." && PLAIN.test(cell)) return Number(cell);
  if (format.decimal === "," && PLAIN_COMMA.test(cell)) return Number(cell.replace(",", "."));
  if (cell === "" || cell.length > 60) return Number.NaN;
  if (HEXADECIMAL.test(cell)) return Number(cell);
  const plain = plainDigits(
    cell
      .replace(/^[−–]/, "-")
      .replace(IN_BRACKETS, "-$1")
      .replace(MINUS_BEHIND, "-$1")
      .replace(/^=\s?(?=[-+\d])/, ""),
    format,
  );
  return plain === null ? Number.NaN : Number(plain);
}

/** A negative number as bookkeepers write it: "(0.3)". */
const IN_BRACKETS = /^\(\s*(\d[\d.,]*)\s*\)$/;
/** Or with the minus behind it: "0.3-". */
const MINUS_BEHIND = /^(\d[\d.,]*)[-−]$/;

/** The decimal mark of Arabic, and the dot at half height of old English print. */
const OTHER_DECIMAL = /(?<=\d)[\u066b\u00b7](?=\d)/;

/** "2110 1/min": the one belongs to the unit. */
const PER_TIME = /(?<=\d)[ \u00a0]+1\/(?=\p{L})/u;

const NUMBER_HEAD = /^([+-]?\s?)((?:\d[\d.,'’\u00a0\u202f\u2009 _]*|[.,]\d+))((?:[eEdD][+-]?\d{1,3})?)(.*)$/u;

/** The cell as `Number` wants it, null where it is no number in this format. */
function plainDigits(cell: string, format: NumberFormat): string | null {
  const match = NUMBER_HEAD.exec(cell.replace(OTHER_DECIMAL, format.decimal).replace(PER_TIME, "/"));
  if (match === null) return null;
  const [, sign, digits, exponent, tail] = match;
  const bare = digits.replace(/[\u00a0\u202f\u2009 ]+$/, "");
  if (tail !== "" && (!isStuck(tail) || /[.,]$/.test(bare))) return null;
  // a number before an exponent is never grouped: its one mark is the decimal one
  const body = exponent !== "" && /^\d+[.,]\d*$/.test(bare) ? bare.replace(",", ".") : ungrouped(bare, format);
  return body === null ? null : sign.trim() + body + exponent.replace(/[dD]/, "e");
}

/** The rest of a date or of a time of day: each is another one, and no unit begins so. */
const GOES_ON = /^[-:/]\d/;
const STUCK = new Map<string, boolean>();
/** What may stand behind a number: a unit or a mark of doubt. Few different ones come in a file; the memory is kept small against many. */
function isStuck(tail: string): boolean {
  if (GOES_ON.test(tail)) return false;
  const known = STUCK.get(tail);
  if (known !== undefined) return known;
  const stuck =
    /^\s*(?:[*?!]+|[[(](?:ok|good|valid|g)[\])]|(?:ok|good|valid))$/i.test(tail) ||
    // a sum that checks the line, two digits to base 16 behind a star
    /^\*[\dA-F]{2}$/.test(tail) ||
    findUnit(unitOfTail(tail)) !== null;
  if (STUCK.size < 500) STUCK.set(tail, stuck);
  return stuck;
}

/** " bar (ok)" is bar, "/min" the unit 1/min. */
const unitOfTail = (tail: string): string =>
  tail
    .replace(/\s*[[(](?:ok|good|valid|g)[\])]$/i, "")
    .replace(/^[\s([]+|[\s)\]]+$/g, "")
    .replace(/^\//, "1/");

/** Whether a number carries a mark of doubt ("3.79?"): it is read, and that is said. */
export const hasDoubtMark = (cell: string): boolean => {
  const last = cell.charCodeAt(cell.length - 1);
  return last === 63 || last === 42 || last === 33;
};

/** Digits without their thousands marks and with a decimal point; null where the marks stand wrongly. */
function ungrouped(digits: string, format: NumberFormat): string | null {
  const at = digits.lastIndexOf(format.decimal);
  const whole = at < 0 ? digits : digits.slice(0, at);
  const fraction = at < 0 ? "" : digits.slice(at + 1);
  if (!/^\d*$/.test(fraction)) return null;
  if (/^\d*$/.test(whole)) return whole + fraction === "" ? null : `${whole}.${fraction}`;
  // a mark that three digits do not follow groups nothing: the logger was set to another language in between
  const other = format.decimal === "." ? "," : ".";
  const [before, behind, more] = whole.split(other);
  if (
    at < 0 &&
    format.thousands !== other &&
    behind !== undefined &&
    more === undefined &&
    behind.length !== 3 &&
    behind !== "" &&
    /^\d+$/.test(before + behind)
  )
    return `${before}.${behind}`;
  // Both marks in one number leave no doubt which of them groups.
  const mark = format.thousands ?? (at >= 0 ? (format.decimal === "." ? "," : ".") : null);
  if (mark === null) return null;
  const groups = whole
    .replace(/[\u00a0\u202f\u2009]/g, " ")
    .replace(/’/g, "'")
    .split(mark);
  const last = groups.length - 1;
  // in India only the last three digits make a group of three
  const isIndian = last > 1 && groups[1].length === 2;
  const good = groups.every((group, i) => (i === 0 ? /^\d{1,3}$/ : isIndian && i < last ? /^\d{2}$/ : /^\d{3}$/).test(group));
  return good ? `${groups.join("")}.${fraction}` : null;
}
