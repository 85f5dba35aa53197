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
const [MINUTE, HOUR] = [60, 3600];
type Story = FindingsDocument["findings"][number];
type Stretch = { readonly from: number; readonly to: number };

/** A report of one record, its pictures thinned: the whole, and the longest stretch of each finding that breaks a limit. */
export function reportOf(record: LogRecord, document: FindingsDocument, order: ReportOrder): string {
  const whole = { from: seconds(0), to: record.duration };
  return writeReport({ ...order, document, trace: thinTrace(record, whole, COLUMNS), closeUps: closeUps(record, document) });
}

function closeUps(record: LogRecord, document: FindingsDocument): ReportInput["closeUps"] {
  return document.findings.flatMap((story, finding) => {
    const shown = story.overLimit === true ? stretchToShow(story, document) : null;
    if (shown === null) return [];
    const [least, most] = windowOf(story.kind, document);
    const middle = (shown.from + shown.to) / 2;
    const half = Math.min(most, Math.max(least, (shown.to - shown.from) * (1 + 2 * MARGIN))) / 2;
    const span = { from: seconds(Math.max(0, middle - half)), to: seconds(Math.min(record.duration, middle + half)) };
    return [{ finding, trace: thinTrace(record, span, COLUMNS) }];
  });
}

/** The longest place of a finding; the highest one of an oscillation, the busiest of starts and of short runs. */
function stretchToShow({ kind, places }: Story, document: FindingsDocument): Stretch | null {
  const { secondsOf } = timeLabels(document, null);
  const spans = places.map((p) => ({ from: secondsOf(p.from), to: secondsOf(p.to) }));
  if (kind === "cycling" || kind === "short-cycles") {
    const counted = kind === "cycling" ? document.running.runs : document.cycling.shortCycle.runs.map((i) => document.running.runs[i]);
    return busiest(
      counted.map(({ from }) => secondsOf(from)),
      kind === "cycling" ? HOUR : 30 * MINUTE,
    );
  }
  const heights = kind === "oscillation" ? document.oscillation.episodes.map((e) => e.peakToPeakPa?.low ?? 0) : [];
  const episodes = document.oscillation.episodes.map((e) => ({ from: secondsOf(e.from), to: secondsOf(e.to) }));
  if (heights.length > 0) return episodes[heights.indexOf(heights.reduce((a, b) => Math.max(a, b)))];
  return spans.length === 0 ? null : spans.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a));
}

/** The window of a length that begins at a start and holds most of them; null without any. Starts in order of time, O(n). */
export function busiest(starts: readonly number[], length: number): Stretch | null {
  let [best, most] = [0, 0];
  for (let i = 0, j = 0; i < starts.length; i++) {
    while (j < starts.length && starts[j] <= starts[i] + length) j++;
    if (j - i > most) [best, most] = [i, j - i];
  }
  return most === 0 ? null : { from: starts[best], to: starts[best] + length };
}

/** A close-up shows no less and no more than this, s: some cycles or waves must be seen one by one, not a week of them. */
function windowOf(kind: Story["kind"], document: FindingsDocument): readonly [number, number] {
  if (kind === "short-cycles" || kind === "cycling") return [30 * MINUTE, HOUR];
  if (kind !== "oscillation") return [2 * MINUTE, 4 * HOUR];
  const periods = document.oscillation.episodes.flatMap((e) => e.periodS?.value ?? []);
  const longest = periods.length === 0 ? 2 * MINUTE : periods.reduce((a, b) => Math.max(a, b)) * 25;
  return [longest, longest];
}
