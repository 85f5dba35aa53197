import type { Dialect } from "./dialect";

/** Data with no headings above them. Sample: sample-data/dialects/no-headings.csv */
export const noHeadings: Dialect = {
  id: "no-headings",
  recognise: () => ({ headingRows: [], unitRow: null, headings: null }),
};
