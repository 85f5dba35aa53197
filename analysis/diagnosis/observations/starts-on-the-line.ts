import { mainChannel } from "../../../shared/record/find-channel";
import { indexAtOrAfter } from "../../../shared/record/sampling";
import { median } from "../../numerics/order-statistics";
import { usualInterval } from "../../segments/even-stretch";
import { pumpOf, type Sight } from "./sight";

/**
 * A sample of so many times the usual running current is a start straight from the line: a motor started so draws some six times its rated current for a
 * fraction of a second. A drive gives at most 1.5 times the rated, and a motor that idles on one takes 0.4 of it: 1.5 / 0.4 = 3.75. Within a second of
 * rest no drive is there yet, since it ramps up from nothing over seconds; what then leaps at all is a start from the line (common practice, no source).
 */
const OF_RUNNING = { atOnce: 2, ever: 4 };
const AT_ONCE = 1; // s: a drive's ramp takes longer (common practice, no source)
/** So many starts must show it, and so large a share: a sample seldom falls within the inrush. Among later samples of the runs it is this much rarer. */
const LEAST = { starts: 3, share: 0.02, above: 10 };

/**
 * Whether the current shows starts straight from the line: it leaps at the beginning of runs and hardly ever later. Such a pump has no drive.
 * False is "not shown": means over an interval and slow logs hide it. O(n).
 */
export function startsOnTheLine(sight: Sight): boolean {
  const [pump, current] = [pumpOf(sight), mainChannel(sight.record, "current")];
  if (pump === null || current === null) return false;
  const { sampling, values } = current;
  const runs = pump.runs.map(({ from, to }) => ({ first: indexAtOrAfter(sampling, from), past: indexAtOrAfter(sampling, to) }));
  const running = runs.flatMap(({ first, past }) => Array.from(values.subarray(first, past))).filter((a) => !Number.isNaN(a));
  if (running.length === 0) return false;
  const leap = (usualInterval(current) <= AT_ONCE ? OF_RUNNING.atOnce : OF_RUNNING.ever) * median(running);
  const starts = runs.filter(({ first, past }) => first < past && values[first] >= leap).length;
  const later = running.filter((a) => a >= leap).length - starts;
  return starts >= Math.max(LEAST.starts, LEAST.share * runs.length) && starts >= LEAST.above * later;
}
