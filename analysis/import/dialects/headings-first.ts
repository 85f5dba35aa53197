import type { Dialect } from "./dialect";
import { couldBeHeadings, headingRow, rowAbove } from "./heading-rows";

/** Headings in the first line, data below. Sample: sample-data/dialects/headings-first.csv */
export const headingsFirst: Dialect = {
  id: "headings-first",
  recognise(head) {
    const heading = headingRow(head);
    if (!couldBeHeadings(head, heading) || rowAbove(head, heading) >= 0) return null;
    return { headingRows: [heading], unitRow: null, headings: null };
  },
};
