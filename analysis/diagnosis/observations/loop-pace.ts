import { isCannotTell } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import { sampleAt, type Trace } from "../../model/fit/trace";
import { quantile } from "../../numerics/order-statistics";
import { isWithin } from "../../segments/is-within";
import { traceIn } from "./at-work";
import { heldElsewhere } from "./held-elsewhere";
import { isFixedSpeed, type Looks, levelFor, setPressureOf } from "./sight";

/** The first and the last seconds of a run belong to start and sleep. */
const APART = 20;
const SLOWEST_SAMPLING = 12; // s
const LEAST_PAIRS = 100;
/** Errors smaller than this share of set pressure are the sensor's and nobody's trouble. */
const LEAST_ERROR = 0.004;
/** Edges of the half time, s: of sound drives on the sites used for fitting none was over 40 s, of slow ones hardly any under 96. */
const EDGES = [25, 80] as const;
const LAGS = [4, 6, 8, 12, 16, 20, 24, 32, 40, 48, 64, 96, 128]; // s

/** Errors as shares of set pressure run after run, NaN where missing; a run holds the samples from one of `starts` to the next. */
type Errors = { readonly values: Float64Array; readonly starts: readonly number[] };

/** Well inside of runs; a scale that is off is no error of the loop. */
function errorsInRuns(trace: Trace, set: number, without: readonly Span[]): Errors {
  const { times, pressure, runs } = trace;
  const values = new Float64Array(pressure.length);
  const starts = [0];
  const wholly = without.length === 0; // asked once, not sample by sample
  let count = 0;
  for (const { from, to } of runs) {
    for (let i = sampleAt(trace, from); i < times.length && to - times[i] > APART; i++)
      if (times[i] - from > APART) values[count++] = wholly || !isWithin(without, times[i]) ? pressure[i] / set : Number.NaN;
    starts.push(count);
  }
  const inRuns = values.subarray(0, count);
  const held = quantile(inRuns, 0.5);
  for (let i = 0; i < count; i++) inRuns[i] -= held;
  return { values: inRuns, starts };
}

/** Samples added up by one call: enough to be quick, and few enough that the engine compiles the sum for the calls that follow. */
const PIECE = 4096;

/** Mean product of the errors at two instants of the same run `lag` samples apart; NaN with too few. */
function covariance({ values, starts }: Errors, lag: number): number {
  const added = { sum: 0, pairs: 0 };
  for (let k = 1; k < starts.length; k++) {
    const end = starts[k] - lag;
    for (let first = starts[k - 1]; first < end; first += PIECE) addProducts(added, values, first, Math.min(end, first + PIECE), lag);
  }
  return added.pairs < LEAST_PAIRS ? Number.NaN : added.sum / added.pairs;
}

function addProducts(added: { sum: number; pairs: number }, values: Float64Array, first: number, end: number, lag: number): void {
  let sum = added.sum;
  let pairs = added.pairs;
  for (let i = first; i < end; i++) {
    const product = values[i] * values[i + lag];
    if (product - product !== 0) continue;
    sum += product;
    pairs++;
  }
  added.sum = sum;
  added.pairs = pairs;
}

/** Seconds until half of an error is left: where the autocovariance falls to half of that at the first lag, which noise does not reach. */
function halfTime(trace: Trace, errors: Errors, first: number): number | null {
  const start = Math.max(1, Math.round(LAGS[0] / trace.interval));
  for (const seconds of LAGS.slice(1)) {
    const lag = Math.round(seconds / trace.interval);
    if (lag <= start) continue;
    const left = covariance(errors, lag);
    if (Number.isNaN(left)) return null;
    if (left < 0.5 * first) return seconds;
  }
  return LAGS[LAGS.length - 1];
}

export const loopPaceLooks: Pick<Looks, "loop-pace"> = {
  /**
   * How long the loop takes to mend an error. With the loop closed an error dies away as e^(-t/T), T the loop's own time, and so does the
   * autocorrelation of the errors left by draws that come by chance (a first-order system driven by steps that come by chance). Only where something
   * other than the pressure says when the pump ran: else rests are taken for errors.
   */
  "loop-pace"(sight) {
    const [trace, set] = [traceIn(sight), setPressureOf(sight)];
    const { pump } = sight.segments;
    if (trace === null || set === null || !(set > 0) || isFixedSpeed(sight.site) || isCannotTell(pump)) return null;
    if (pump.basis === "pressure" || pump.basis === "flow" || trace.interval > SLOWEST_SAMPLING) return null;
    const errors = errorsInRuns(trace, set, heldElsewhere(sight));
    const first = covariance(errors, Math.max(1, Math.round(LAGS[0] / trace.interval)));
    if (Number.isNaN(first)) return null;
    const error = Math.sqrt(Math.max(0, first));
    if (error < LEAST_ERROR) return { level: "prompt", numbers: { error } };
    const half = halfTime(trace, errors, first);
    if (half === null) return null;
    return { level: levelFor(half, EDGES, ["prompt", "unhurried", "slow"]), numbers: { half, error } };
  },
};
