import type { Span } from "../../../shared/findings/span";
import { sampleAt, type Trace } from "../../model/fit/trace";
import { quantiles } from "../../numerics/order-statistics";
import { traceIn } from "./at-work";
import { pumpOf, type Sight } from "./sight";

/** Ordinary switches are not set closer between cut-in and cut-out; drives wake well within. Common practice, no source. */
const LEAST_DIFFERENTIAL = 60_000; // Pa
const LEAST_RUNS = 8;
const LEAST_SAMPLES = 8; // of a run whose course can be told
/** A switch turns at the same two pressures each time: the middle half of either lies within this share of the differential. */
const SAME = 0.12;
/** A pressure that climbs passes through a band of this share of the differential in not much more than that share of the run; one that is held stays in it. */
const STAY = { width: 0.15, time: 0.4 };
/** A switch ends the run where the pressure has come to its highest; a drive lets it come back from there first. */
const AT_TOP = 0.15;

/** Lowest, last and highest pressure of a run, Pa. */
type Course = { readonly begin: number; readonly end: number; readonly top: number; readonly span: Span };

function courseOf(trace: Trace, span: Span): Course | null {
  const { times, pressure } = trace;
  const [first, last] = [sampleAt(trace, span.from), sampleAt(trace, span.to) - 1];
  if (last - first + 1 < LEAST_SAMPLES || times[last] - times[first] > 3 * trace.interval * (last - first)) return null;
  let top = Number.NEGATIVE_INFINITY;
  let begin = Number.POSITIVE_INFINITY;
  for (let i = first; i <= last; i++) {
    top = Math.max(top, pressure[i]);
    begin = Math.min(begin, pressure[i]);
  }
  if (Number.isNaN(top)) return null; // a reading is missing
  return { begin, end: Math.max(pressure[last], pressure[last - 1]), top, span };
}

/** Greatest share of a run's time in which the pressure lies within `width` Pa, wherever that is. O(n log n). */
function longestStay(trace: Trace, { from, to }: Span, width: number): number {
  const { times, pressure } = trace;
  const first = sampleAt(trace, from);
  const held: { readonly pressure: number; readonly time: number }[] = [];
  for (let i = first + 1; i < times.length && times[i] <= to; i++)
    if (!Number.isNaN(pressure[i])) held.push({ pressure: pressure[i], time: times[i] - times[i - 1] });
  held.sort((a, b) => a.pressure - b.pressure);
  let [most, within] = [0, 0];
  for (let low = 0, high = 0; high < held.length; high++) {
    within += held[high].time;
    while (held[high].pressure - held[low].pressure > width) within -= held[low++].time;
    most = Math.max(most, within);
  }
  return most / (to - from);
}

/**
 * Whether the log shows a pump on a pressure switch, where the facts say nothing of its kind: in run after run the pressure climbs from one pressure to
 * another far above it, and the pump stops as soon as it is there. A drive stays at the pressure it holds. Only with a witness of the runs other than the
 * pressure; speed tells of a drive by itself. False is "not shown".
 */
export function showsSwitch(sight: Sight): boolean {
  const [pump, trace] = [pumpOf(sight), traceIn(sight)];
  const witnessed = pump?.basis === "running" || pump?.basis === "current" || pump?.basis === "power";
  if (pump === null || !witnessed || trace === null || trace.speed !== null) return false;
  const courses = pump.runs.flatMap((run) => (run.complete ? (courseOf(trace, run) ?? []) : []));
  if (courses.length < LEAST_RUNS) return false;
  const spread = (of: (course: Course) => number) => quantiles(Float64Array.from(courses, of), [0.25, 0.5, 0.75]);
  const [begin, top] = [spread((c) => c.begin), spread((c) => c.top)];
  const differential = top[1] - begin[1];
  if (!(differential >= LEAST_DIFFERENTIAL)) return false;
  if (Math.max(begin[2] - begin[0], top[2] - top[0]) > SAME * differential) return false;
  const stopsAtTop = spread((c) => c.top - c.end)[1] < AT_TOP * differential;
  return stopsAtTop && spread((c) => longestStay(trace, c.span, STAY.width * differential))[1] < STAY.time;
}
