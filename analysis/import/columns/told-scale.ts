import { firstUnread } from "../statement-words";

const NUMBER = "(\\d+(?:[.,]\\d+)?(?:e[-+]?\\d+)?|1/\\d+)";
const BEFORE_NUMBER = "[^\\d\\p{L}]{1,6}(?:x|\\*)?\\s*";

/** "Decimals: 2" above whole numbers: the logger leaves the mark out. */
const DECIMALS =
  /^\W*(?:decimals|decimal places|implied decimals|nachkommastellen|dezimalstellen|d[ée]cimales|decimales)\s*["']?\s*[:=;,\t]\s*["']?([1-6])\b/i;
/** "Scale factor: 0.1", "Gain = 0.01": what one step of the numbers is worth. */
const WORTH = new RegExp(
  `\\b(?:scale(?: ?factor)?|scaling(?: factor)?|multiplier|gain|factor|faktor|skalierung|skalierungsfaktor|multiplikator|facteur(?: d.[ée]chelle)?|multiplicateur|factor de escala|multiplicador|fator(?: de escala)?|fattore(?: di scala)?|moltiplicatore|schaalfactor)${BEFORE_NUMBER}${NUMBER}(?![\\d.,])`,
  "iu",
);
/** "Divide by 100 for bar": the numbers were multiplied. */
const DIVIDE = new RegExp(
  `(?:\\b(?:durch|par|por|per|door)\\s+${NUMBER}\\s+(?:zu )?(?:teilen|diviser|dividir|dividere|delen)\\b)|\\b(?:divide|teilen|teile|diviser|dividir|dividere|delen)\\b\\D{0,16}?${NUMBER}(?![\\d.,])`,
  "iu",
);
const MULTIPLIED = new RegExp(
  `\\b(?:multiplied|multipliziert|multipli[ée]e?s?|multiplicad[oa]s?|moltiplicat[oaie]|vermenigvuldigd)\\b\\D{0,8}?${NUMBER}(?![\\d.,])`,
  "iu",
);
/** "Multiply by 0.1". */
const MULTIPLY = new RegExp(
  `\\b(?:multiply|multipliziere|multiplier par|multiplicar|moltiplicare|vermenigvuldig)\\b\\D{0,16}?${NUMBER}(?![\\d.,])`,
  "iu",
);

const numberIn = (text: string): number => (text.startsWith("1/") ? 1 / Number(text.slice(2)) : Number(text.replace(",", ".")));

/** What one step of the numbers is worth by the words of a line, 1 where it says nothing. */
export function scaleIn(line: string): number {
  const decimals = DECIMALS.exec(line);
  if (decimals !== null) return 10 ** -Number(decimals[1]);
  const direct = MULTIPLY.exec(line) ?? WORTH.exec(line);
  if (direct !== null) return numberIn(direct[1]);
  const inverse = DIVIDE.exec(line) ?? MULTIPLIED.exec(line);
  return inverse === null ? 1 : 1 / numberIn(inverse[1] ?? inverse[2]);
}

/** The scale that the column's own line or the lines above the table tell; null where they tell none, or none but one. */
export function toldScale(own: string, preamble: readonly string[]): number | null {
  const scale = [own, ...preamble].map(scaleIn).find((found) => found !== 1 && found > 0 && Number.isFinite(found));
  return scale ?? null;
}

/** A number beside words of a scale in a line that nothing above understands: it may be worth, divisor or neither. */
export const unclearScale = (own: readonly string[], preamble: readonly string[]) =>
  firstUnread("scale", [...own, ...preamble], (line) => scaleIn(line) !== 1);
