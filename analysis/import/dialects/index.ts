import type { HeadTable } from "../head-table";
import { commentedHeadings } from "./commented-headings";
import type { Dialect, TableLayout } from "./dialect";
import { headingsFirst } from "./headings-first";
import { headingsLast } from "./headings-last";
import { noHeadings } from "./no-headings";
import { otherDelimiter } from "./other-delimiter";
import { preamble } from "./preamble";
import { stackedHeadings } from "./stacked-headings";
import { unitsOverHeadings } from "./units-over-headings";
import { unitsRow } from "./units-row";

/** Every way of laying out a file, the more particular before the more general. */
export const DIALECTS: readonly Dialect[] = [
  commentedHeadings,
  stackedHeadings,
  unitsRow,
  unitsOverHeadings,
  headingsFirst,
  preamble,
  otherDelimiter,
  headingsLast,
  noHeadings,
];

/** The first dialect that recognises the head; the last one takes every file. */
export function findDialect(head: HeadTable): { readonly dialect: Dialect; readonly layout: TableLayout } {
  for (const dialect of DIALECTS) {
    const layout = dialect.recognise(head);
    if (layout !== null) return { dialect, layout };
  }
  return { dialect: noHeadings, layout: { headingRows: [], unitRow: null, headings: null } };
}
