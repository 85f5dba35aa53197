import type { Dialect } from "./dialect";
import { namesTime, rowAbove } from "./heading-rows";

/** The headings are parted by another mark than the rows ("Time,Pressure" over "10:00;3.5"). Sample: sample-data/dialects/other-delimiter.csv */
export const otherDelimiter: Dialect = {
  id: "other-delimiter",
  recognise(head) {
    const row = rowAbove(head, head.firstData);
    if (row < 0 || head.signature.count < 2) return null;
    for (const mark of [",", ";", "\t", "|"]) {
      const cells = head.rows[row].text.split(mark).map((cell) => cell.trim().replace(/^"(.*)"$/, "$1"));
      const heads = cells.length === head.signature.count && cells.some(namesTime) && cells.every((cell) => /\p{L}/u.test(cell));
      if (heads && head.rows[row].cells.length !== cells.length) return { headingRows: [row], unitRow: null, headings: cells };
    }
    return null;
  },
};
