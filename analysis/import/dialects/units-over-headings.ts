import type { Dialect } from "./dialect";
import { couldBeHeadings, isUnitsRow, rowAbove } from "./heading-rows";

/** The units stand over the names ("[-];[bar]" over "Time;Pressure"). Sample: sample-data/dialects/units-over-headings.csv */
export const unitsOverHeadings: Dialect = {
  id: "units-over-headings",
  recognise(head) {
    const heading = rowAbove(head, head.firstData);
    const units = rowAbove(head, heading);
    if (units < 0 || !couldBeHeadings(head, heading) || isUnitsRow(head.rows[heading].cells)) return null;
    const { cells } = head.rows[units];
    return cells.length === head.rows[heading].cells.length && isUnitsRow(cells)
      ? { headingRows: [heading], unitRow: units, headings: null }
      : null;
  },
};
