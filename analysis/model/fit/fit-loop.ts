import type { FittedParameter } from "../../../shared/findings/what-if";
import { clusteredRegression } from "../../numerics/clustered-regression";
import { studentQuantile } from "../../numerics/distributions";
import { quantile } from "../../numerics/order-statistics";
import { inLog } from "./estimate";
import type { Trace } from "./trace";

export type FittedLoop = { readonly gain: FittedParameter; readonly integralTime: FittedParameter; readonly lag: FittedParameter };

const SLOWEST_SAMPLING = 5; // s; above it the loop acts between samples unseen
const GROUPS = 8;
const LEAST_POINTS = 25; // a group
const QUIET = 2e3; // Pa off the set pressure: below it noise leads
const GRID = 30;
const MOST_POINTS = 6000;
const BLOCK = 40; // samples
const BOOST = 32; // s before a stop in which the drive may aim higher than the set pressure
const WARM_UP = 60; // s, ten of the longest single lag
const LAGS = { low: 0.1, high: 12 }; // s

/**
 * The loop read from what it did: speed answers pressure by gain and integral, behind a lag (smoothing, motor and water together, taken as
 * two equal first-order lags). For each lag the change of speed from sample to sample is regressed on the change of lagged pressure and
 * on the lagged error; the lag that leaves least is taken. Intervals from the spread over eight groups of runs.
 * Closed loop does no harm: speed is the controller's answer to the very pressure that is logged.
 * @returns null without speed, with sampling above 5 s, or with too few excited runs
 */
export function fitLoop(trace: Trace, setPressure: number): FittedLoop | null {
  if (trace.speed === null || trace.interval > SLOWEST_SAMPLING || trace.runs.length === 0) return null;
  const keep = thinned(excitedSamples(trace, setPressure));
  const groups = Array.from({ length: GROUPS }, (_, g) => keep.filter((_, i) => Math.floor((i * GROUPS) / keep.length) === g));
  if (groups.some((group) => group.length < LEAST_POINTS)) return null;
  const lags = Array.from({ length: GRID }, (_, k) => LAGS.low * (LAGS.high / LAGS.low) ** (k / (GRID - 1)));
  const ranges = rangesBefore(keep, Math.ceil(WARM_UP / trace.interval));
  const lagged = new Float64Array(trace.times.length);
  const answers = lags.map((lag) => {
    for (const range of ranges) followTwice(trace.pressure, trace.times, lag / 2, trace.interval, range.from, range.to, lagged);
    return [keep, ...groups].map((samples) => answerWith(trace, setPressure, samples, lagged));
  });
  const [whole, ...parts] = [keep, ...groups].map((_, g) =>
    bestOf(
      lags,
      answers.map((row) => row[g]),
    ),
  );
  const sound = parts.filter((part) => part !== null);
  if (whole === null || sound.length < GROUPS - 1) return null;
  const spread = (of: (answer: Answer) => number) => spreadOfMean(sound.map((part) => Math.log(of(part))));
  const reach = studentQuantile(0.975, sound.length - 1);
  const integralTime = (answer: Answer) => answer.gain / answer.perTime;
  return {
    gain: inLog(
      "gain",
      whole.gain,
      spread((a) => a.gain),
      "log",
      reach,
    ),
    integralTime: inLog("integral-time", integralTime(whole), spread(integralTime), "log", reach),
    lag: inLog(
      "loop-lag",
      whole.lag,
      spread((a) => a.lag),
      "log",
      reach,
    ),
  };
}

type Regression = { readonly gain: number; readonly perTime: number; readonly left: number };
type Answer = { readonly lag: number; readonly gain: number; readonly perTime: number };

/** The lag that leaves least, refined by a parabola through its neighbours; gain and integral go along. */
function bestOf(lags: readonly number[], answers: readonly (Regression | null)[]): Answer | null {
  let best = -1;
  answers.forEach((answer, k) => {
    if (answer !== null && (best < 0 || answer.left < answers[best]!.left)) best = k;
  });
  if (best < 0) return null;
  const [before, here, after] = [answers[best - 1] ?? null, answers[best]!, answers[best + 1] ?? null];
  const bend = before === null || after === null ? 0 : before.left - 2 * here.left + after.left;
  const move = bend > 0 ? (before!.left - after!.left) / (2 * bend) : 0;
  const other = move < 0 ? before! : (after ?? here);
  const mixed = (a: number, b: number) => a * (b / a) ** Math.abs(move);
  const ratio = lags[1] / lags[0];
  return { lag: lags[best] * ratio ** move, gain: mixed(here.gain, other.gain), perTime: mixed(here.perTime, other.perTime) };
}

/** Stretches that hold the kept samples and so many before each, in which the lags forget where they began. */
function rangesBefore(keep: readonly number[], before: number): { readonly from: number; readonly to: number }[] {
  const ranges: { from: number; to: number }[] = [];
  for (const i of keep) {
    const last = ranges[ranges.length - 1];
    if (last !== undefined && i - before <= last.to) last.to = i + 1;
    else ranges.push({ from: Math.max(0, i - before), to: i + 1 });
  }
  return ranges;
}

/** Every so many in whole blocks, so that the regressions stay quick. */
const thinned = (keep: readonly number[]): readonly number[] => {
  const every = Math.ceil(keep.length / MOST_POINTS);
  return every === 1 ? keep : keep.filter((_, i) => Math.floor(i / BLOCK) % every === 0);
};

function spreadOfMean(values: readonly number[]): number {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  return Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (values.length - 1) / values.length);
}

/** Samples of runs where the loop is free (no start, stop, limit or ramp) and has something to answer. */
function excitedSamples(trace: Trace, setPressure: number): number[] {
  const { times, pressure, run, runs, interval } = trace;
  const speed = trace.speed!;
  const rates = new Float64Array(times.length);
  for (let i = 1; i < times.length; i++) rates[i] = Math.abs(speed[i] - speed[i - 1]) / (times[i] - times[i - 1]);
  const ramp = 0.7 * quantile(rates, 0.9995);
  const slow =
    0.6 *
    quantile(
      Float64Array.from(speed).filter((v, i) => v > 0 && run[i] >= 0),
      0.5,
    );
  const free = (i: number) => speed[i] > slow && speed[i] < 0.995 && rates[i] < ramp;
  const keep: number[] = [];
  for (let i = 3; i < times.length; i++) {
    const r = run[i];
    if (r < 0 || run[i - 1] !== r || times[i] - times[i - 1] > 1.5 * interval) continue;
    if (times[i] - runs[r].from < 6 + 2 * interval || runs[r].to - times[i] < BOOST + 3 * interval) continue;
    if (!free(i) || !free(i - 1) || !Number.isFinite(pressure[i])) continue;
    if (Math.abs(pressure[i] - setPressure) > QUIET || Math.abs(pressure[i] - pressure[i - 1]) > QUIET) keep.push(i);
  }
  return keep;
}

function answerWith(trace: Trace, setPressure: number, keep: readonly number[], lagged: Float64Array): Regression | null {
  const speed = trace.speed!;
  const n = keep.length;
  const [change, error, time, answer] = [new Float64Array(n), new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  const cluster = new Int32Array(n);
  keep.forEach((i, k) => {
    const step = trace.times[i] - trace.times[i - 1];
    change[k] = lagged[i - 1] - lagged[i];
    error[k] = step * (setPressure - (lagged[i] + lagged[i - 1]) / 2);
    time[k] = step;
    answer[k] = speed[i] - speed[i - 1];
    cluster[k] = Math.floor(k / 4);
  });
  const fit = clusteredRegression([change, error, time], answer, cluster);
  if (fit === null || !(fit.coefficients[0] > 0 && fit.coefficients[1] > 0)) return null;
  let left = 0;
  for (let k = 0; k < n; k++) {
    left += Math.abs(answer[k] - fit.coefficients[0] * change[k] - fit.coefficients[1] * error[k] - fit.coefficients[2] * time[k]);
  }
  return { gain: fit.coefficients[0], perTime: fit.coefficients[1], left };
}

const PARTS = 4; // pieces of an interval: a swing of five samples a period is no polygon

/**
 * Two equal first-order lags behind the pressure. Between samples the pressure runs along a cubic through its neighbours (Catmull-Rom),
 * in four straight pieces, exact for those: a straight line from sample to sample would flatten a swing of five samples a period by an eighth.
 * Starts anew after a gap or a missing value.
 */
function followTwice(
  values: ArrayLike<number>,
  times: Float64Array,
  lag: number,
  interval: number,
  from: number,
  to: number,
  out: Float64Array,
): void {
  const usualKeep = Math.exp(-interval / PARTS / lag);
  let [first, second, at] = [Number.NaN, Number.NaN, Number.NaN];
  for (let i = from; i < to; i++) {
    const step = i > from ? times[i] - times[i - 1] : 0;
    if (Number.isNaN(first + values[i]) || !(step > 0) || step > 3 * interval) {
      first = second = at = values[i];
    } else {
      const [before, a, b] = [values[i > 1 ? i - 2 : i - 1], values[i - 1], values[i]];
      const after = i + 1 < values.length && Number.isFinite(values[i + 1]) ? values[i + 1] : b;
      const piece = step / PARTS;
      const keep = Math.abs(step - interval) < 1e-6 ? usualKeep : Math.exp(-piece / lag);
      for (let k = 1; k <= PARTS; k++) {
        const next = k === PARTS ? b : cubic(Number.isFinite(before) ? before : a, a, b, after, k / PARTS);
        const passed = behind(first, at, next, piece, lag, keep);
        second = behind(second, first, passed, piece, lag, keep);
        first = passed;
        at = next;
      }
    }
    out[i] = second;
  }
}

/** A first-order lag after a straight piece from `from` to `to`. */
function behind(state: number, from: number, to: number, step: number, lag: number, keep: number): number {
  const slope = ((to - from) / step) * lag;
  return to - slope + (state - from + slope) * keep;
}

function cubic(p0: number, p1: number, p2: number, p3: number, x: number): number {
  return p1 + 0.5 * x * (p2 - p0 + x * (2 * p0 - 5 * p1 + 4 * p2 - p3 + x * (3 * (p1 - p2) + p3 - p0)));
}
