import type { PlannedColumn } from "../table-plan";
import { spacedWords } from "./column-facts";
import type { ColumnText } from "./column-reading";

/** A column that says of the values of another how good they are, and its word for a good one. */
export type QualityColumn = { readonly index: number; readonly heading: string; readonly usual: string };

const SAYS_QUALITY =
  /\b(?:quality|qualitat|qualitaet|qualite|calidad|qualidade|qualita|kwaliteit|validity|validitat|validite|validez|validade|validita|geldigheid|q)\b/;
const SAYS_STATUS = /\b(?:status|state|zustand|etat|estado|stato|toestand)\b/;

/**
 * Words for the quality of a value. What is bad is not usable, what is uncertain may be. Source: IEC 62541-8 (severity of a status code), from memory; other
 * languages common practice, no source.
 */
const GOOD = /^(?:good|gut|bon(?:ne)?|bueno|buena|bom|boa|buono|buona|goed|192)$/i;
const BAD = /^(?:bad|schlecht|mauvaise?|malo|mala|mau|ruim|cattivo|cattiva|slecht)(?:[ ,:_-].*)?$/i;
const UNCERTAIN = /^(?:uncertain|unsicher|incertaine?|inciert[oa]|incert[oa]|onzeker|questionable|suspect)(?:[ ,:_-].*)?$/i;
/** Whether a value is valid, under a heading that says so. */
const VALID = /^(?:ok|valid|gültig|gueltig|valide|válid[oa]|valid[oa]|geldig)$/i;
const INVALID = /^(?:invalid|ungültig|ungueltig|invalide|inválid[oa]|non valid[oa]|ongeldig)$/i;
/** The two highest bits of a quality in a byte: 192 and more is good, less than 64 bad, as industrial servers write it; common practice, no source. */
const BAD_BELOW = 64;

const isNumber = (cell: string): boolean => /^\d{1,3}$/.test(cell);

/** Whether a cell of a column of qualities says that the value is not to be used. */
export const isBadQuality = (cell: string): boolean => BAD.test(cell) || INVALID.test(cell) || (isNumber(cell) && Number(cell) < BAD_BELOW);

/** Columns of numbers with the column that says how good each of their values is, where there is one. */
export function withQualities(planned: readonly PlannedColumn[], texts: readonly ColumnText[]): readonly PlannedColumn[] {
  const qualities = texts.flatMap((text) => qualityOf(text) ?? []);
  if (qualities.length === 0) return planned;
  return planned.map((column) => {
    if (column.use !== "number" || qualities.some(({ index }) => index === column.index)) return column;
    const own = qualities.find((quality) => speaksOf(quality, column)) ?? besides(qualities, column, planned);
    return own === undefined ? column : { ...column, quality: own };
  });
}

/** One for all columns, or the next behind each; one that names another column is its own. */
function besides(qualities: readonly QualityColumn[], column: PlannedColumn, planned: readonly PlannedColumn[]): QualityColumn | undefined {
  const plain = qualities.filter((quality) => !planned.some((other) => speaksOf(quality, other)));
  if (plain.length < 2) return plain[0];
  return plain.find(({ index }) => index === column.index + 1);
}

/** "Pressure quality" is that of "Pressure (bar)". */
function speaksOf(quality: QualityColumn, { heading, index }: PlannedColumn): boolean {
  const of = bareName(quality.heading).replace(SAYS_QUALITY, "").replace(SAYS_STATUS, "").trim();
  return index !== quality.index && of !== "" && of === bareName(heading);
}

const bareName = (heading: string) =>
  spacedWords(heading.replace(/[[({<][^\])}>]*[\])}>]/g, " "))
    .replace(/\s+/g, " ")
    .trim();

function qualityOf({ index, heading, sample }: ColumnText): QualityColumn | null {
  const words = spacedWords(heading);
  const byName = SAYS_QUALITY.test(words);
  if (!byName && !SAYS_STATUS.test(words)) return null;
  const counts = new Map<string, number>();
  for (const cell of sample) if (cell !== "") counts.set(cell, (counts.get(cell) ?? 0) + 1);
  const cells = [...counts.keys()];
  const isGood = (cell: string) =>
    GOOD.test(cell) || (byName && (VALID.test(cell) || (isNumber(cell) && Number(cell) >= 192 && Number(cell) < 256)));
  const isKnown = (cell: string) =>
    isGood(cell) ||
    UNCERTAIN.test(cell) ||
    (byName || !isNumber(cell) ? isBadQuality(cell) || (isNumber(cell) && Number(cell) < 256) : false);
  if (cells.length === 0 || !cells.every(isKnown) || !cells.some((cell) => isGood(cell))) return null;
  const [usual] = [...counts].filter(([cell]) => isGood(cell)).reduce((best, entry) => (entry[1] > best[1] ? entry : best));
  return { index, heading, usual };
}
