import type { RowRefusal } from "../../../shared/wording/row-refusal";

/** A line that is no row of data, and of which it is not known yet what it is. */
export type PendingLine = {
  readonly line: number;
  readonly text: string;
  readonly cells: readonly string[];
  readonly why: RowRefusal;
  readonly likeData: boolean;
  readonly isInstant: boolean;
};

/** Words in every cell of one row, and below it two rows or more of as many cells, not all of them words: the headings of a table and its rows. */
export function startsTable([first, ...others]: readonly PendingLine[]): boolean {
  const filled = (cells: readonly string[]) => cells.filter((cell) => cell !== "");
  const width = filled(first.cells).length;
  const isHeading = width > 1 && width === first.cells.length && first.cells.every((cell) => /\p{L}/u.test(cell) && !/^[-+]?\d/.test(cell));
  const alike = others.filter(({ cells }) => cells.length === width).length;
  return isHeading && alike > 1 && alike > 0.8 * others.length && others.some(({ cells }) => cells.some((cell) => /^[-+]?\d/.test(cell)));
}
