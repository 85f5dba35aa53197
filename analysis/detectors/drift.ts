import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { DriftWindow, Outcome } from "../../shared/findings/finding";
import { isCannotTell, type SteadyWindow } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { measured } from "../../shared/units/measured";
import { pascalDifference } from "../../shared/units/pressure";
import { slowTrend } from "../numerics/slow-trend";
import { valueStep } from "../numerics/value-step";
import { steadyBasisChannel } from "../segments/steady-flow";
import type { Detector, Evidence } from "./detector";
import { holdsPressure } from "./drift/holds-pressure";

/** Waves that a window must be long for, where one rides on the pressure. */
const LEAST_WAVES = 4;

/**
 * Does pressure wander while the draw stays the same and the pump runs? Slope by the median of pairs over block medians, times the window's
 * length; the interval respects the memory of the noise, and only an interval wholly past the limit counts as over it.
 * The tank's own fall with the pump at rest is no drift; nor is the rise from cut-in to cut-out of a pump that only switches.
 * Wrong where the meter is too coarse to show a change of draw, or the set pressure was changed in the window.
 */
export const drift: Detector<"drift"> = {
  kind: "drift",
  detect(evidence: Evidence): Outcome<"drift"> {
    const { segments, record, site, faults } = evidence;
    const pressure = mainChannel(record, "pressure");
    if (pressure === null)
      return { kind: "drift", state: "cannot-tell", because: [{ id: "no-pressure-channel", about: "drift", detail: {} }] };
    if (isCannotTell(segments.steady)) return { kind: "drift", state: "cannot-tell", because: [segments.steady] };
    const holding = holdsPressure(evidence, pressure);
    const limit = site.limits.driftAtSteadyFlow.value;
    const step = valueStep(pressure.values);
    const windows = (holding ? segments.steady : [])
      .filter((w) => w.pumpRunning !== false)
      .flatMap((w) => driftIn(w, pressure, faults, limit, step));
    if (windows.length === 0) {
      return {
        kind: "drift",
        state: "cannot-tell",
        because: [{ id: "nothing-to-see", about: "drift", detail: { why: "no-steady-minute" } }],
      };
    }
    const places = windows.filter((w) => w.over).map(({ from, to }) => ({ from, to }));
    const channels = [pressure.heading, ...[steadyBasisChannel(record)].flatMap((c) => (c === null ? [] : [c.heading]))];
    return { kind: "drift", state: "found", finding: { kind: "drift", places, channels, limit, windows }, limits: tooCoarse(step, limit) };
  },
};

/** Steps so large that a change past the limit and none look alike. */
const tooCoarse = (step: number, limit: number): CannotTell[] =>
  step > limit / 2 ? [{ id: "quantised-too-coarse", about: "drift", detail: { stepPa: step, neededStepPa: limit / 10 } }] : [];

function driftIn(window: SteadyWindow, channel: Channel, faults: readonly LogFault[], limit: number, step: number): DriftWindow[] {
  const { times, values } = cleanSamples(window, channel, faults);
  if (times[times.length - 1] - times[0] < 0.8 * (window.to - window.from)) return [];
  const trend = slowTrend(times, values, step);
  if (trend === null || (trend.wavePeriod !== null && window.to - window.from < LEAST_WAVES * trend.wavePeriod)) return [];
  const change = measured(
    pascalDifference(trend.change),
    pascalDifference(Math.min(trend.low, trend.change)),
    pascalDifference(Math.max(trend.high, trend.change)),
  );
  return [{ from: window.from, to: window.to, meanFlow: window.meanFlow, change, over: change.low > limit || change.high < -limit }];
}

/** Samples of a window that no fault touches. */
function cleanSamples(
  { from, to }: SteadyWindow,
  channel: Channel,
  faults: readonly LogFault[],
): { times: Float64Array; values: Float64Array } {
  const here = faults.filter(
    (f) =>
      (f.channel === null || f.channel === channel.heading) && f.from <= to && f.to >= from && f.kind !== "gap" && f.kind !== "silence",
  );
  const first = indexAtOrAfter(channel.sampling, from);
  const end = indexAtOrAfter(channel.sampling, to + 1e-6);
  const times = new Float64Array(Math.max(0, end - first));
  const values = new Float64Array(times.length);
  let n = 0;
  for (let i = first; i < end; i++) {
    const t = timeAt(channel.sampling, i);
    const value = channel.values[i];
    if (value - value !== 0 || here.some((f) => f.from <= t && t <= f.to)) continue;
    times[n] = t;
    values[n++] = value;
  }
  return { times: times.subarray(0, n), values: values.subarray(0, n) };
}
