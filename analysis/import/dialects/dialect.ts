import type { HeadTable } from "../head-table";

/** Which rows of the head are headings and units; indexes into the rows of the head. */
export type TableLayout = {
  readonly headingRows: readonly number[];
  readonly unitRow: number | null;
  /** Headings where they do not stand in rows of their own, else null. */
  readonly headings: readonly string[] | null;
};

/** One way of laying out a file. */
export type Dialect = {
  readonly id: string;
  /** Null where the file is laid out in another way. */
  recognise(head: HeadTable): TableLayout | null;
};
