import type { ColumnText } from "./columns/column-reading";

/** Headings over the numbers of rows, in the languages of the headings; common practice, no source. */
const COUNT_WORD =
  /^(?:#|n\.?|no\.?|nr\.?|n[°º]\.?|num(?:ber|ero|éro)?|index|idx|row|line|rec(?:ord)?(?: ?(?:no\.?|number|#|id))?|sample(?: ?(?:no\.?|number|#))?|entry|(?:entry|record|row|sample)[ _]?id|id|seq(?:uence)?|count|lfd\.? ?nr\.?|zeile|ligne|fila|linha|riga|rij|volgnr\.?|column \d+)$/i;

/** Numbers of the rows under a heading that says so or none at all: whole, each one more than the last but for repeated rows. */
export const countsRows = (column: ColumnText): boolean => COUNT_WORD.test(column.heading.trim()) && stepsByOne(column, 0.8);

/** A dozen numbers or more that rise by one from each row to the next, whatever their heading says: no measured quantity does that. */
export const isRowCount = (column: ColumnText): boolean => column.sample.length >= 12 && stepsByOne(column, 1);

/** @param share of the steps that are one; a row that stands twice has its number twice, one that was left out leaves a hole */
function stepsByOne({ sample }: ColumnText, share: number): boolean {
  const head = sample.slice(0, 200);
  if (head.length < 3 || !head.every((cell) => /^\d+$/.test(cell))) return false;
  const steps = head.slice(1).map((cell, i) => Number(cell) - Number(head[i]));
  return steps.every((step) => step >= 0) && steps.filter((step) => step === 1).length >= share * steps.length;
}
