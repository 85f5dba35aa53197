import { isCannotTell } from "../../../shared/findings/segment";
import { sampleAt, type Trace } from "../../model/fit/trace";
import { medianInterval } from "../../numerics/median-interval";
import { quantile, quantileInPlace } from "../../numerics/order-statistics";
import { remembered } from "../../numerics/remember";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { restsOf } from "../../segments/starts";
import { traceIn } from "./at-work";
import { lastFall } from "./last-fall";
import { isFixedSpeed, type Sight } from "./sight";

/** The draw that brought the pump on, read when the run has settled, s after the start. */
const SETTLED = { from: 10, to: 35 };
const LEAST_STARTS = 4;
const SLOWEST_SAMPLING = 5; // s; in longer ones a quick fall is over

/** Less than this share of the most that flows is nothing; and where most settled runs show nothing, the meter sees only what goes into the tank: the draw leaves before it. */
const PASSES = 0.03;

function mostInRuns({ run }: Trace, flow: ArrayLike<number>): number {
  const inRuns = new Float64Array(run.length);
  let n = 0;
  for (let i = 0; i < run.length; i++) if (run[i] >= 0 && Number.isFinite(flow[i])) inRuns[n++] = flow[i];
  return quantileInPlace(inRuns, 0.98, n);
}

/** A quick fall lies anywhere between isothermal and adiabatic, and a draw changes while the pump starts: this way or that, whatever the number of starts. */
const QUICK = 1.4;

export type Estimated = { readonly value: number; readonly low: number; readonly high: number; readonly starts: number };

/**
 * Gas constant K = p0 Vt of the tank, J, from starts of a drive: q = K d(1/p)/dt while the pump rests, and q is what flows once the run that this draw
 * brought on has settled, since a drive then gives what is drawn. Wherever the meter stands it shows that flow, before the tank or after it. One
 * value a start, their median; draws that change meanwhile scatter it. Null without flow, or with fewer than four such starts.
 */
export const gasConstantByStarts = remembered(constantByStarts);

function constantByStarts(sight: Sight): Estimated | null {
  const trace = traceIn(sight);
  const { pump } = sight.segments;
  if (
    trace?.flow == null ||
    isCannotTell(pump) ||
    isFixedSpeed(sight.site) ||
    pump.basis === "pressure" ||
    pump.basis === "flow" ||
    trace.interval > SLOWEST_SAMPLING
  )
    return null;
  const { flow, times, runs } = trace;
  const rests = restsOf(pump);
  if (rests.length < LEAST_STARTS) return null;
  const noise = Math.max(noiseOf(trace.pressure), levelStep(trace.pressure) / Math.sqrt(12));
  const constants: number[] = [];
  const least = PASSES * mostInRuns(trace, flow);
  let [seen, r] = [0, 0];
  for (const { from, to } of rests) {
    while (runs[r].from < to) r++; // a rest ends where a run begins
    if (runs[r].to - to < SETTLED.to) continue;
    const stretch = { first: sampleAt(trace, from), end: Math.max(0, sampleAt(trace, to) - 1) };
    const fall = lastFall(times, trace.pressure, stretch, noise, sight.site.atmosphere.value);
    if (fall === null) continue;
    const settled: number[] = [];
    for (let i = sampleAt(trace, to + SETTLED.from); i < times.length && times[i] <= to + SETTLED.to; i++) settled.push(flow[i]);
    const drawn = quantile(settled, 0.5);
    seen++;
    if (drawn > least) constants.push((drawn * fall.time) / fall.rise);
  }
  if (constants.length < LEAST_STARTS || !(constants.length > seen / 2)) return null;
  const { value, low, high } = medianInterval(constants);
  return { value, low: low / QUICK, high: high * QUICK, starts: constants.length };
}
