import { EMPTY_CHECKLIST } from "../../shared/findings/checklist";
import type { UnitChoice } from "../../shared/units/unit-choice";
import type { ReportOrder } from "../../src/report/report-input";

/** A report of one visit with nothing added to it: no letterhead, no comparison, nothing done. */
export const bareOrder = (units: UnitChoice, parts: Partial<ReportOrder> = {}): ReportOrder => ({
  siteName: null,
  comparison: null,
  checklist: EMPTY_CHECKLIST,
  letterhead: { lines: [], logo: null },
  units,
  paper: "A4",
  leaveOut: [],
  writtenOn: null,
  ...parts,
});
