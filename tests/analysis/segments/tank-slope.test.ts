import { describe, expect, test } from "vitest";
import { slopeOfTrace } from "../../../analysis/segments/tank-slope";
import type { TankTrace } from "../../../analysis/segments/tank-windows";
import { seconds } from "../../../shared/units/quantity";

const K = 27_500; // J
const REST = 480_000; // Pa absolute

/**
 * A rest of 20 s, then a steady draw: 1/p rises by V/K (Boyle). The draw begins at `begin`, the sensor lags (first order); volume as trapezoids over the
 * samples of a second, as a reader of the log must take it. Closed form: a ramp through a first-order lag is V(t) - q tau (1 - exp(-t / tau)).
 */
function traceOf(flow: number, begin: number, lag: number, samples = 28): TankTrace {
  const times = Float64Array.from({ length: samples }, (_, i) => i);
  const q = times.map((t) => (t > begin ? flow : 0));
  const drawn = new Float64Array(samples);
  for (let i = 1; i < samples; i++) drawn[i] = drawn[i - 1] + (q[i] + q[i - 1]) / 2;
  const inverse = times.map((t) => {
    const since = Math.max(0, t - begin);
    return 1 / REST + (flow * (since - lag * (1 - Math.exp(-since / lag)))) / K;
  });
  return {
    span: { from: seconds(0), to: seconds(samples - 1) },
    times,
    samples: Uint32Array.from(times),
    drawn,
    inverse,
    flow: q,
    calmUntil: samples,
  };
}
const gasConstant = (trace: TankTrace) => 1 / slopeOfTrace(trace, trace.times.length, 0, 1e-9).value;

describe("slope of one draw", () => {
  test.each([
    [0.3, 0.2],
    [0.9, 0.2],
    [0.5, 0.5],
  ])("a draw that begins %d s after a sample, read by a sensor that lags %d s, gives the tank's constant within 3 %%", (phase, lag) => {
    expect(Math.abs(gasConstant(traceOf(0.001, 20 + phase, lag)) / K - 1)).toBeLessThan(0.03);
  });
  test("two points of a draw that are hidden in its own shift give no slope", () => {
    expect(slopeOfTrace(traceOf(0.001, 20.5, 0.2, 22), 22, 0, 1e-8).value).toBeNaN();
  });
});
