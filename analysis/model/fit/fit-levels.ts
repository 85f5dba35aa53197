import type { FindingOf } from "../../../shared/findings/finding";
import type { FittedParameter } from "../../../shared/findings/what-if";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { clusteredRegression } from "../../numerics/clustered-regression";
import { median, quantile, robustSpread } from "../../numerics/order-statistics";
import { onLine, widened } from "./estimate";
import { sampleAt, type Trace } from "./trace";

/** Pressures at which the control acts. */
export type FittedLevels = {
  readonly setPressure: FittedParameter;
  readonly restartPressure: FittedParameter;
  readonly restartDelay: FittedParameter;
  readonly stopPressure: FittedParameter;
};

const USUAL_RESTART_BELOW = 35e3; // Pa under the set pressure; common practice, no source
const USUAL_SPREAD = 12e3; // Pa
const FALLING = 0.03; // of full speed from sample to sample: a pump that is coming to rest
const SEEN_EARLY = 500; // Pa: a fall that bends between the restart pressure and the start
const SETTLED = 20; // s into a run from where it may hold its pressure

export function fitLevels(trace: Trace, site: SiteFacts, tracking: FindingOf<"tracking"> | null): FittedLevels {
  const setPressure = fitSetPressure(trace, site, tracking);
  const starts = fitRestart(trace, site, setPressure.value);
  return { setPressure, ...starts, stopPressure: fitStop(trace, setPressure.value, 0) };
}

function fitSetPressure(trace: Trace, site: SiteFacts, tracking: FindingOf<"tracking"> | null): FittedParameter {
  const given = site.setPressure?.value ?? tracking?.setPressure ?? null;
  if (given !== null) return onLine("set-pressure", given, 1.5e3, site.setPressure === null ? "log" : "facts");
  const held: number[] = [];
  for (let i = 1; i < trace.times.length; i++) {
    const r = trace.run[i];
    if (r < 0 || trace.times[i] - trace.runs[r].from < SETTLED || trace.runs[r].to - trace.times[i] < SETTLED) continue;
    if (Number.isFinite(trace.pressure[i])) held.push(trace.pressure[i]);
  }
  const values = held.length > 30 ? held : Array.from({ length: trace.times.length }, (_, i) => trace.pressure[i]).filter(Number.isFinite);
  return onLine("set-pressure", median(values), Math.max(2e3, robustSpread(values) / 3), "log");
}

/**
 * Pressure keeps falling between the restart pressure and the moment the pump is seen to start, the further the faster it falls:
 * p at start = restart + slope * delay. Regressed over all starts.
 */
function fitRestart(trace: Trace, site: SiteFacts, setPressure: number): Pick<FittedLevels, "restartPressure" | "restartDelay"> {
  const [level, slope, one, each]: number[][] = [[], [], [], []];
  trace.runs.forEach((run, r) => {
    const i = sampleAt(trace, run.from);
    if (!run.complete && r === 0) return;
    const fall = i >= 4 ? fallBefore(trace, i) : null;
    if (fall === null) return;
    level.push(fall.at);
    slope.push(fall.slope);
    one.push(1);
    each.push(r);
  });
  const delay = onLine("restart-delay", 0.7, 0.4, "usual");
  const given = site.restartPressure ?? site.cutIn;
  const fit =
    level.length >= 6 ? clusteredRegression([Float64Array.from(one), Float64Array.from(slope)], Float64Array.from(level), each) : null;
  if (fit !== null && fit.coefficients[1] > 0 && fit.reach * Math.sqrt(fit.covariance[0][0]) < 20e3) {
    return {
      restartPressure: widened(
        onLine("restart-pressure", fit.coefficients[0], Math.sqrt(fit.covariance[0][0]), "log", fit.reach),
        SEEN_EARLY,
      ),
      restartDelay: onLine("restart-delay", fit.coefficients[1], Math.sqrt(fit.covariance[1][1]), "log", fit.reach),
    };
  }
  if (level.length >= 3) {
    const sd = Math.max(1e3, robustSpread(level) / Math.sqrt(level.length));
    return { restartPressure: onLine("restart-pressure", quantile(level, 0.6), sd, "log"), restartDelay: delay };
  }
  if (given !== null) return { restartPressure: onLine("restart-pressure", given.value, 2e3, "facts"), restartDelay: delay };
  return { restartPressure: onLine("restart-pressure", setPressure - USUAL_RESTART_BELOW, USUAL_SPREAD, "usual"), restartDelay: delay };
}

/** Pressure extrapolated to the start by the fall over the last four samples before it, Pa and Pa/s; null where it did not fall evenly. */
function fallBefore(trace: Trace, i: number): { readonly at: number; readonly slope: number } | null {
  const { times, pressure, run } = trace;
  for (let k = i - 4; k < i; k++) if (run[k] >= 0 || !Number.isFinite(pressure[k])) return null;
  const slope = (pressure[i - 1] - pressure[i - 4]) / (times[i - 1] - times[i - 4]);
  const bend = pressure[i - 1] - pressure[i - 2] - (pressure[i - 3] - pressure[i - 4]);
  if (!(slope < 0) || Math.abs(bend) > 3e3 + 0.5 * Math.abs(slope) * (times[i - 1] - times[i - 2])) return null;
  const started = trace.runs[trace.run[i]]?.from ?? times[i];
  return { at: pressure[i - 1] + slope * (started - times[i - 1]), slope };
}

/**
 * Pressure at which the pump is told to stop: set pressure plus boost, or cut-out. With speed: what the smoothed pressure was when the speed
 * let go; without, the highest pressure around the stop.
 * @param smoothing first-order lag of the control's reading, s
 */
export function fitStop(trace: Trace, setPressure: number, smoothing: number): FittedParameter {
  const levels: number[] = [];
  for (const run of trace.runs) {
    const i = run.complete ? lettingGo(trace, run.from, run.to) : -1;
    const level = i < 0 ? Number.NaN : trace.speed === null ? trace.pressure[i] : smoothedAt(trace, i, smoothing);
    if (Number.isFinite(level)) levels.push(level);
  }
  if (levels.length < 3) return onLine("stop-pressure", setPressure + 15e3, USUAL_SPREAD, "usual");
  return onLine("stop-pressure", median(levels), Math.max(800, robustSpread(levels) / Math.sqrt(levels.length)), "log");
}

/** Pressure behind a first-order lag at a sample, from the five lags before it. */
function smoothedAt(trace: Trace, i: number, lag: number): number {
  const { times, pressure } = trace;
  let k = i;
  while (k > 0 && times[i] - times[k] < 5 * lag) k--;
  let state = pressure[k];
  for (k++; k <= i; k++) {
    const step = times[k] - times[k - 1];
    const slope = ((pressure[k] - pressure[k - 1]) / step) * lag;
    state = lag > 0 ? pressure[k] - slope + (state - pressure[k - 1] + slope) * Math.exp(-step / lag) : pressure[k];
  }
  return state;
}

/** Last sample before the speed begins its last fall; without speed that of the highest pressure around the end. */
function lettingGo(trace: Trace, from: number, to: number): number {
  const { speed, pressure, times, interval } = trace;
  let i = Math.min(times.length - 1, sampleAt(trace, to + interval));
  if (speed !== null) {
    while (i > 0 && times[i] > from && speed[i - 1] - speed[i] < FALLING && times[i] > to - 3 * interval) i--;
    while (i > 0 && times[i] > from && speed[i - 1] - speed[i] >= FALLING) i--;
    return i;
  }
  let best = i;
  for (; i > 0 && times[i] > Math.max(from, to - 20); i--) if (pressure[i] > pressure[best]) best = i;
  return best;
}
