import type { Dialect } from "./dialect";
import { couldBeHeadings, isUnitsRow, rowAbove } from "./heading-rows";

/** Headings in one row, their units alone in the next, then data. Sample: sample-data/dialects/units-row.csv */
export const unitsRow: Dialect = {
  id: "units-row",
  recognise(head) {
    const units = rowAbove(head, head.firstData);
    if (units < 0 || !isUnitsRow(head.rows[units].cells)) return null;
    const heading = rowAbove(head, units);
    return couldBeHeadings(head, heading) ? { headingRows: [heading], unitRow: units, headings: null } : null;
  },
};
