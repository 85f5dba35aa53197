import { isCannotTell } from "../../../shared/findings/segment";
import { sampleAt, type Trace } from "../../model/fit/trace";
import { medianInterval } from "../../numerics/median-interval";
import { quantile } from "../../numerics/order-statistics";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { restsOf } from "../../segments/starts";
import { traceIn } from "./at-work";
import { isFixedSpeed, type Sight } from "./sight";

/** The draw that brought the pump on, read when the run has settled, s after the start. */
const SETTLED = { from: 10, to: 35 };
/** The last part of the fall, which that draw made. */
const LAST = 0.4;
const STANDS_OUT = 6; // spreads of the noise
const LEAST_STARTS = 4;
const SLOWEST_SAMPLING = 5; // s

/** Less than this share of the most that flows, and the meter sees only what goes into the tank: the draw leaves before it. */
const PASSES = 0.15;

function mostInRuns({ run }: Trace, flow: ArrayLike<number>): number {
  const inRuns = new Float64Array(run.length);
  for (let i = 0; i < run.length; i++) inRuns[i] = run[i] >= 0 ? flow[i] : Number.NaN;
  return quantile(inRuns, 0.98);
}

export type Estimated = { readonly value: number; readonly low: number; readonly high: number; readonly starts: number };

/** Time from which the fall before a start was the last part of it, and 1/p(abs) there and at the start. Null where noise hides it. */
function lastFall(trace: Trace, from: number, to: number, noise: number, air: number) {
  const { times, pressure } = trace;
  const [first, end] = [sampleAt(trace, from), Math.max(0, sampleAt(trace, to) - 1)];
  let highest = pressure[end];
  for (let i = first; i < end; i++) if (pressure[i] > highest) highest = pressure[i];
  const part = LAST * (highest - pressure[end]);
  if (!(part > STANDS_OUT * noise)) return null;
  let at = end;
  while (at > first && !(pressure[at] >= pressure[end] + part)) at--;
  return at === end ? null : { time: times[end] - times[at], rise: 1 / (pressure[end] + air) - 1 / (pressure[at] + air) };
}

/**
 * Gas constant K = p0 Vt of the tank, J, from starts of a drive: q = K d(1/p)/dt while the pump rests, and q is what flows once the run that this draw
 * brought on has settled, since a drive then gives what is drawn. Wherever the meter stands it shows that flow, before the tank or after it. One
 * value a start, their median; draws that change meanwhile scatter it. Null without flow, or with fewer than four such starts.
 */
export function gasConstantByStarts(sight: Sight): Estimated | null {
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
  const draws: number[] = [];
  let r = 0;
  for (const { from, to } of rests) {
    while (r < runs.length && runs[r].from < to) r++;
    if (r >= runs.length || runs[r].to - to < SETTLED.to) continue;
    const fall = lastFall(trace, from, to, noise, sight.site.atmosphere.value);
    if (fall === null) continue;
    const settled: number[] = [];
    for (let i = sampleAt(trace, to + SETTLED.from); i < times.length && times[i] <= to + SETTLED.to; i++) settled.push(flow[i]);
    const drawn = quantile(settled, 0.5);
    if (!(drawn > 0)) continue;
    draws.push(drawn);
    constants.push((drawn * fall.time) / fall.rise);
  }
  if (constants.length < LEAST_STARTS || !(quantile(draws, 0.5) > PASSES * mostInRuns(trace, flow))) return null;
  return { ...medianInterval(constants), starts: constants.length };
}
