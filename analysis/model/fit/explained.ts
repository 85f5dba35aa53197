import { simulateSite } from "../simulate-site";
import type { SiteModel } from "../site-model";
import { drawFromTrace } from "./draw-from-trace";
import { sampleAt, type Trace } from "./trace";

const LONGEST = 1800; // s
const MOST_STRETCHES = 24;

/**
 * Share of the pressure's variance that the fitted model explains when it runs by itself from the draw alone, one cycle at a
 * time: from a rest through the next run to the start after it. Longer ones lose step with the starts, which says little of the model. 1 is all; 0 or less: no better than the mean. Null where no stretch can be run.
 */
export function explainedShare(site: SiteModel, trace: Trace, reference: number): number | null {
  const starts = restStarts(trace);
  const step = Math.max(1, Math.floor(starts.length / MOST_STRETCHES));
  let [left, sum, squares, n] = [0, 0, 0, 0];
  for (let s = 0; s < starts.length; s += step) {
    const from = starts[s];
    const to = Math.min(trace.times.length, sampleAt(trace, endOfCycle(trace, from)));
    const predicted = to - from > 10 ? rerun(site, trace, reference, from, to) : null;
    if (predicted === null) continue;
    for (let i = from; i < to; i++) {
      const k = Math.round((trace.times[i] - trace.times[from]) / trace.interval);
      const p = trace.pressure[i];
      if (k >= predicted.length || !Number.isFinite(p)) continue;
      left += (p - predicted[k]) ** 2;
      sum += p;
      squares += p * p;
      n++;
    }
  }
  const total = squares - (sum * sum) / Math.max(1, n);
  return n < 30 || !(total > 0) ? null : 1 - left / total;
}

/** Samples at rest with a known pressure, half a minute after a stop; the record's start where the pump never rests. */
function restStarts(trace: Trace): number[] {
  const starts = trace.runs
    .map((run) => sampleAt(trace, run.to + 10))
    .filter((i) => i < trace.times.length - 10 && trace.run[i] < 0 && Number.isFinite(trace.pressure[i]));
  return starts.length > 0 ? starts : [0];
}

function endOfCycle(trace: Trace, from: number): number {
  const t = trace.times[from];
  const later = trace.runs.filter((run) => run.from > t);
  return Math.min(t + LONGEST, later[1]?.from ?? Number.POSITIVE_INFINITY);
}

/** The pressure the model gives over a stretch of the record, one sample each interval, without noise. */
export function rerun(site: SiteModel, trace: Trace, reference: number, from: number, to: number): Float32Array | null {
  const demand = drawFromTrace(trace, site, reference, from, to);
  if (demand === null) return null;
  const quiet = { ...site, logger: { ...site.logger, interval: trace.interval, channels: ["pressure"] as const } };
  const running = trace.run[from] >= 0;
  const visit = simulateSite(quiet, demand, Math.max(1, trace.times[to - 1] - trace.times[from]), 1, {
    startPressure: trace.pressure[from],
    startSpeed: running ? (trace.speed?.[from] ?? 0.8) : 0,
  });
  return visit.samples.columns.get("pressure") ?? null;
}
