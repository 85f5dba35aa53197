import { isAllWords } from "../head-table";
import type { Dialect } from "./dialect";
import { namesTime } from "./heading-rows";

/** A file turned round as a whole, newest row first: the headings stand in its last line. Sample: sample-data/dialects/headings-last.csv */
export const headingsLast: Dialect = {
  id: "headings-last",
  recognise(head) {
    const last = head.rows.findLastIndex(({ text }) => text.trim() !== "");
    const { cells } = head.rows[last];
    const heads = cells.length === head.signature.count && isAllWords(cells, head.kinds[last]) && cells.some(namesTime);
    return head.firstData === 0 && last > 0 && heads ? { headingRows: [last], unitRow: null, headings: null } : null;
  },
};
