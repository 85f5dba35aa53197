import { isCannotTell } from "../../../shared/findings/segment";
import type { Trace } from "../../model/fit/trace";
import { quantile } from "../../numerics/order-statistics";
import { traceIn } from "./at-work";
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

/** Whether sample i lies well inside a run. */
const settled = ({ times, run, runs }: Trace, i: number): boolean =>
  run[i] >= 0 && times[i] - runs[run[i]].from > APART && runs[run[i]].to - times[i] > APART;

/** Errors as shares of set pressure, NaN outside of runs; a scale that is off is no error of the loop. Shape [n]. */
function errorsInRuns(trace: Trace, set: number): Float64Array {
  const { pressure } = trace;
  const errors = new Float64Array(pressure.length);
  for (let i = 0; i < errors.length; i++) errors[i] = settled(trace, i) ? pressure[i] / set : Number.NaN;
  const held = quantile(errors, 0.5);
  for (let i = 0; i < errors.length; i++) errors[i] -= held;
  return errors;
}

/** Mean product of the errors at two instants of the same run `lag` samples apart; NaN with too few. */
function covariance({ run }: Trace, errors: Float64Array, lag: number): number {
  let [sum, pairs] = [0, 0];
  for (let i = 0, end = errors.length - lag; i < end; i++) {
    const product = errors[i] * errors[i + lag]; // NaN outside of runs
    if (product - product !== 0 || run[i] !== run[i + lag]) continue;
    sum += product;
    pairs++;
  }
  return pairs < LEAST_PAIRS ? Number.NaN : sum / pairs;
}

/** Seconds until half of an error is left: where the autocovariance falls to half of that at the first lag, which noise does not reach. */
function halfTime(trace: Trace, errors: Float64Array, first: number): number | null {
  const start = Math.max(1, Math.round(LAGS[0] / trace.interval));
  for (const seconds of LAGS.slice(1)) {
    const lag = Math.round(seconds / trace.interval);
    if (lag <= start) continue;
    const left = covariance(trace, errors, lag);
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
    const errors = errorsInRuns(trace, set);
    const first = covariance(trace, errors, Math.max(1, Math.round(LAGS[0] / trace.interval)));
    if (Number.isNaN(first)) return null;
    const error = Math.sqrt(Math.max(0, first));
    if (error < LEAST_ERROR) return { level: "prompt", numbers: { error } };
    const half = halfTime(trace, errors, first);
    if (half === null) return null;
    return { level: levelFor(half, EDGES, ["prompt", "unhurried", "slow"]), numbers: { half, error } };
  },
};
