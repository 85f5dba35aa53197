import { describe, expect, test } from "vitest";
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

describe("bounds (0.1 L/s of 100 L at 4 bar: it shows within seconds)", () => {
  /** The same at other instants, with other flows, or with a run from some sample on. */
  const with_ = (change: Partial<Trace>) => asked({ ...trace(() => 4e5), ...change });
  test("to the last reading before the pump runs, and from the first after", () => {
    const run = (from: number, to: number) => Int32Array.from({ length: 600 }, (_, t) => (t >= from && t < to ? 0 : -1));
    expect(with_({ run: run(300, 600) })).toBe(299);
    expect(with_({ run: run(0, 50) })).toBe(549);
  });
  test("twenty readings are a still stretch, nineteen are not", () => {
    const slow = (count: number) =>
      with_({
        times: Float64Array.from({ length: count }, (_, i) => 10 * i),
        pressure: new Float64Array(count).fill(4e5),
        flow: new Float64Array(count).fill(1e-3),
        run: new Int32Array(count).fill(-1),
        interval: 10,
      });
    expect([19, 20].map(slow)).toEqual([0, 190]);
  });
  test("a gap of over three intervals ends it", () => {
    const gap = (length: number) => with_({ times: Float64Array.from({ length: 600 }, (_, t) => (t < 400 ? t : t + length - 1)) });
    expect(gap(3)).toBe(601);
    expect(gap(4)).toBe(399); // nothing was drawn in the second part
  });
  test("a range as wide as a still reading has is still, a wider one moves", () => {
    const stepping = (size: number) => asked(trace((t) => (t === 400 ? 4e5 + size : 4e5)));
    expect(stepping(1000)).toBe(599);
    expect(stepping(1001)).toBe(399);
    expect(asked(trace((t) => 4e5 + (t === 350 ? -600 : t === 400 ? 600 : 0)))).toBe(399);
  });
  test("what may have begun or ended between two samples, or passes below what the meter shows for certain, does not count", () => {
    expect(with_({ flow: Float64Array.from({ length: 600 }, (_, t) => (t % 2 === 0 ? 2e-4 : 0)) })).toBe(0);
    expect(with_({ flow: new Float64Array(600).fill(1e-6) })).toBe(0); // 0.54 L: 2.7 kPa
    expect(drawnWhileStill({ ...trace(() => 4e5), flow: new Float64Array(600).fill(1e-4) }, 1000, 0.1, 1e5, 1.01e-4)).toBe(0);
    expect(drawnWhileStill({ ...trace(() => 4e5), flow: new Float64Array(600).fill(1e-4) }, 1000, 0.1, 1e5, 1e-4)).toBe(599);
    expect(with_({ flow: null })).toBe(0);
  });
  test("the last minute before it moves again does not count: of 0.1 L/s 59 s less one are 5.8 L", () => {
    const begins = (at: number) => with_({ flow: Float64Array.from({ length: 600 }, (_, t) => (t >= at ? 1e-3 : 0)) });
    // dp = 1 L x 5 bar / 100 L = 5 kPa: over three times 1000 Pa as soon as one second of it counts
    expect(begins(538)).toBe(599);
    expect(begins(539)).toBe(0);
  });
});
