import { thinTrace } from "../../analysis/document/thin-trace";
import type { LogRecord } from "../../shared/record/log-record";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { seconds } from "../../shared/units/quantity";
import { writeReport } from "./report";
import type { ReportInput, ReportOrder } from "./report-input";
import { timeLabels } from "./time-labels";

const COLUMNS = 650;
/** Room around the longest stretch of a finding in its picture, as a share of it. */
const MARGIN = 0.25;
/** A close-up shows no less than this and no more, s: a cycle must be seen, not a week. */
const [SHORTEST, LONGEST] = [120, 4 * 3600];

/** A report of one record, its pictures thinned: the whole, and the longest stretch of each finding that breaks a limit. */
export function reportOf(record: LogRecord, document: FindingsDocument, order: ReportOrder): string {
  const whole = { from: seconds(0), to: record.duration };
  return writeReport({ ...order, document, trace: thinTrace(record, whole, COLUMNS), closeUps: closeUps(record, document) });
}

function closeUps(record: LogRecord, document: FindingsDocument): ReportInput["closeUps"] {
  const { secondsOf } = timeLabels(document, null);
  return document.findings.flatMap((f, finding) => {
    if (f.overLimit !== true || f.places.length === 0) return [];
    const spans = f.places.map((p) => ({ from: secondsOf(p.from), to: secondsOf(p.to) }));
    const longest = spans.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a));
    const middle = (longest.from + longest.to) / 2;
    const half = Math.min(LONGEST, Math.max(SHORTEST, (longest.to - longest.from) * (1 + 2 * MARGIN))) / 2;
    const span = { from: seconds(Math.max(0, middle - half)), to: seconds(Math.min(record.duration, middle + half)) };
    return [{ finding, trace: thinTrace(record, span, COLUMNS) }];
  });
}
