import type { Dialect } from "./dialect";
import { couldBeHeadings, headingRow } from "./heading-rows";

/** Lines about the logger or the place first, then headings in one row, then data. Sample: sample-data/dialects/preamble.csv */
export const preamble: Dialect = {
  id: "preamble",
  recognise(head) {
    const heading = headingRow(head);
    return couldBeHeadings(head, heading) ? { headingRows: [heading], unitRow: null, headings: null } : null;
  },
};
