import type { ColumnText } from "./columns/column-reading";

/** Headings over the numbers of rows, in the languages of the headings; common practice, no source. */
const COUNT_WORD =
  /^(?:#|n\.?|no\.?|nr\.?|n[°º]\.?|num(?:ber|ero|éro)?|index|idx|row|line|rec(?:ord)?(?: ?(?:no\.?|number|#|id))?|sample(?: ?(?:no\.?|number|#))?|entry|(?:entry|record|row|sample)[ _]?id|id|seq(?:uence)?|count|lfd\.? ?nr\.?|zeile|ligne|fila|linha|riga|rij|volgnr\.?|column \d+)$/i;

/** Numbers of the rows under a heading that says so or none at all: whole, each one more than the last but for repeated rows. */
export function countsRows({ heading, sample }: ColumnText): boolean {
  if (!COUNT_WORD.test(heading.trim())) return false;
  const head = sample.slice(0, 200);
  if (head.length < 3 || !head.every((cell) => /^\d+$/.test(cell))) return false;
  // a row that stands twice has its number twice, one that was left out leaves a hole
  const steps = head.slice(1).map((cell, i) => Number(cell) - Number(head[i]));
  return steps.every((step) => step >= 0) && steps.filter((step) => step === 1).length >= 0.8 * steps.length;
}
