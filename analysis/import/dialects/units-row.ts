import type { Dialect } from "./dialect";
import { couldBeHeadings, isUnitsRow, isUnitsUnderNames, namesTime, rowAbove } from "./heading-rows";

/** Headings in one row, their units alone in the next, then data. Sample: sample-data/dialects/units-row.csv */
export const unitsRow: Dialect = {
  id: "units-row",
  recognise(head) {
    const units = rowAbove(head, head.firstData);
    if (units < 0) return null;
    const heading = rowAbove(head, units);
    const { cells } = head.rows[units];
    // "Date/Time,PSI,GPM" under "Time,Pressure,Flow": the time has its name twice.
    const named = heading >= 0 && head.rows[heading].cells.some(namesTime) ? cells.filter((cell) => !namesTime(cell)) : cells;
    if (!isUnitsRow(cells) && !isUnitsRow(named) && !isUnitsUnderNames(head, units)) return null;
    return couldBeHeadings(head, heading) ? { headingRows: [heading], unitRow: units, headings: null } : null;
  },
};
