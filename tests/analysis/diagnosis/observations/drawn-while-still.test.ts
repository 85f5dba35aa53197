import { expect, test } from "vitest";
import { drawnWhileStill } from "../../../../analysis/diagnosis/observations/drawn-while-still";
import type { Trace } from "../../../../analysis/model/fit/trace";

/** Ten minutes of rest at 1 s: 4 bar, a draw of 0.1 L/s from second 100 to 200. */
const trace = (pressure: (t: number) => number, run = -1): Trace => ({
  times: Float64Array.from({ length: 600 }, (_, t) => t),
  pressure: Float64Array.from({ length: 600 }, (_, t) => pressure(t)),
  flow: Float64Array.from({ length: 600 }, (_, t) => (t >= 100 && t < 200 ? 1e-4 : 0)),
  meter: "after-tank",
  speed: null,
  run: new Int32Array(600).fill(run),
  runs: [],
  interval: 1,
});
const asked = (t: Trace, volume = 0.1, still = 1000) => drawnWhileStill(t, still, volume, 1e5, 1e-6);

test("10 L out of a tank of 100 L take at least a tenth of the pressure with them: a reading that stays is stuck", () => {
  expect(asked(trace(() => 4e5))).toBe(599);
});
test("one that falls is not; nor where the tank is so large, or the reading so coarse, that the fall would not show", () => {
  expect(asked(trace((t) => 4e5 - 500 * Math.min(100, Math.max(0, t - 100))))).toBe(0);
  // 9.9 L surely: dp >= 9.9e-3 x 5e5 / V, and three times 1000 Pa are needed.
  expect(asked(trace(() => 4e5), 1.6)).toBe(599); // biome-ignore format: beside its neighbour
  expect(asked(trace(() => 4e5), 1.7)).toBe(0); // biome-ignore format: beside its neighbour
  expect(asked(trace(() => 4e5), 0.1, 17_000)).toBe(0); // biome-ignore format: beside its neighbour
});
test("a running pump gives the water; what is drawn in the last minute may come late", () => {
  expect(asked(trace(() => 4e5, 0))).toBe(0);
  expect(
    asked(
      trace((t) => (t < 205 ? 4e5 : 3e5)),
      0.8,
    ),
  ).toBe(0);
});
