import type { TextRow } from "./find-format";
import type { HeadTable } from "./head-table";

type Word = { readonly text: string; readonly from: number; readonly to: number };

const wordsOf = ({ text }: TextRow): readonly Word[] =>
  [...text.matchAll(/\S+/g)].map((match) => ({ text: match[0], from: match.index, to: match.index + match[0].length }));

/**
 * Where blanks part the cells, a row of units with fewer words than columns ("psi   gpm" under "Date Time Pressure Flow") goes by its place: each
 * word belongs to the heading that it stands under. The head as it is where the places do not show it.
 */
export function alignUnits(head: HeadTable, heading: number, units: number): HeadTable {
  const names = wordsOf(head.rows[heading]);
  const words = wordsOf(head.rows[units]);
  if (names.length !== head.signature.count || words.length >= names.length) return head;
  const cells = names.map(() => "");
  for (const word of words) {
    const apart = names.map((name) => Math.min(Math.abs(name.to - word.to), Math.abs(name.from - word.from)));
    const home = apart.indexOf(Math.min(...apart));
    if (cells[home] !== "") return head;
    cells[home] = word.text;
  }
  return { ...head, rows: head.rows.map((row, i) => (i === units ? { ...row, cells } : row)) };
}
