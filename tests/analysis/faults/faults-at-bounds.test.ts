import { describe, expect, test } from "vitest";
import { findFaults } from "../../../analysis/faults";
import { habitOf, hardlyRepeats } from "../../../analysis/faults/channel-habit";
import { stretchesOf, totalTime, valuesWithoutSpikes } from "../../../analysis/faults/observed";
import { sampleInterval } from "../../../analysis/faults/sample-interval";
import { scanInterval } from "../../../analysis/faults/scan-interval";
import type { LogFault } from "../../../shared/record/log-fault";
import { seconds } from "../../../shared/units/quantity";
import { at, channel, every, onChange, recordOf } from "../../builders/record";
import { noiseOf, seededRandom } from "../../builders/signals";
import { span } from "../../builders/trace";

const told = (record: Parameters<typeof findFaults>[0]) =>
  findFaults(record).map(({ kind, channel: of, from, to }) => [kind, of, from, to]);
const fault = (kind: LogFault["kind"], from: number, to: number, of: string | null = null): LogFault => ({
  kind,
  channel: of,
  from: seconds(from),
  to: seconds(to),
  note: { kind: "no-samples" },
});
const white = noiseOf(2000, seededRandom(31));
/** About 4 bar with 600 Pa of a sensor's noise on a slow swing. */
const pressure = (n: number, change: (p: number, i: number) => number = (p) => p) =>
  Array.from({ length: n }, (_, i) => change(4e5 + 5e4 * Math.sin(i / 40) + 600 * white[i], i));
const logged = (values: readonly number[], role: "pressure" | "flow" = "pressure") =>
  recordOf([channel(role, every(1, values.length), values)]);

describe("pressures under a vacuum", () => {
  // The standard atmosphere: 101,325 Pa (ISO 2533). A steady pressure without noise, so that nothing else is told of it.
  const flat = (...low: number[]) => Array.from({ length: 100 }, (_, i) => low[i - 50] ?? 4e5);
  test("are no water's; a drained pipe, or one that sucks, is", () => {
    expect(told(logged(flat(0, 0, 0)))).toEqual([]);
    expect(told(logged(flat(-101_000, -101_000)))).toEqual([]);
    expect(told(logged(flat(-101_400)))).toEqual([["below-live-zero", "pressure", 50, 50]]);
  });
  test("are told stretch by stretch, to the last reading", () => {
    expect(told(logged([...flat(-2e5, -2e5, 4e5, -2e5), -2e5, -2e5]))).toEqual([
      ["below-live-zero", "pressure", 50, 51],
      ["below-live-zero", "pressure", 53, 53],
      ["below-live-zero", "pressure", 100, 101],
    ]);
  });
  test("of an absolute pressure nothing lies there", () => {
    const absolute = { ...channel("pressure", every(1, 100), flat(-2e5)), quantity: "absolutePressure" as const };
    expect(told(recordOf([absolute]))).toEqual([]);
  });
});

describe("holes", () => {
  const clock = (missing: readonly number[], count = 60) =>
    at(Array.from({ length: count }, (_, i) => i).filter((t) => !missing.includes(t)));
  const ones = (sampling: ReturnType<typeof at>) => new Array(sampling.kind === "listed" ? sampling.times.length : 0).fill(1);
  test("of one clock are everybody's, of several each channel's own", () => {
    const [holed, whole] = [clock([20, 21, 22, 23]), clock([])];
    const current = channel("current", holed, ones(holed));
    const power = channel("power", holed, ones(holed));
    const flow = channel("flow", whole, ones(whole));
    expect(told(recordOf([current, power]))).toEqual([["gap", null, 19, 24]]);
    expect(told(recordOf([current, power, flow]))).toEqual([
      ["gap", "current", 19, 24],
      ["gap", "power", 19, 24],
    ]);
  });
  test("of the clock are not told again as missing values, whose own holes are", () => {
    const sampling = clock([20, 21, 22, 23]);
    const values = ones(sampling).map((v, i) => (i >= 40 && i < 44 ? Number.NaN : v));
    expect(told(recordOf([channel("current", sampling, values)]))).toEqual([
      ["gap", null, 19, 24],
      ["gap", "current", 43, 48],
    ]);
  });
  test("at the very begin and end of a channel count from its first and to its last reading", () => {
    const values = Array.from({ length: 60 }, (_, i) => (i < 8 || i >= 50 ? Number.NaN : 1));
    expect(told(recordOf([channel("current", every(1, 60), values)]))).toEqual([
      ["gap", "current", 0, 8],
      ["gap", "current", 49, 59],
    ]);
  });
});

describe("what the reading told already", () => {
  const times = Array.from({ length: 40 }, (_, i) => (i < 20 ? i : i + 10)); // nothing from 19 to 30
  const count = (...known: LogFault[]) => findFaults(recordOf([channel("current", at(times), times)], known)).length - known.length;
  test("is told once: the same kind, of the same channel or of all, at the same time", () => {
    expect(count()).toBe(1);
    expect(count(fault("gap", 19, 30))).toBe(0);
    expect(count(fault("gap", 25, 26))).toBe(0);
    expect(count(fault("gap", 10, 19))).toBe(0);
    expect(count(fault("gap", 30, 33))).toBe(0);
    expect(count(fault("gap", 10, 18))).toBe(1);
    expect(count(fault("gap", 31, 33))).toBe(1);
    expect(count(fault("silence", 19, 30))).toBe(1);
    expect(count(fault("gap", 19, 30, "flow"))).toBe(1);
  });
  test("and stands with what was found in order of time", () => {
    const values = pressure(900, (p, i) => (i === 100 ? 9.9e5 : i >= 300 && i < 310 ? Number.NaN : p));
    const all = findFaults(recordOf([channel("pressure", every(1, 900), values)], [fault("clock-jump", 200, 201)]));
    expect(all.map(({ kind }) => kind)).toEqual(["spike", "clock-jump", "gap"]);
  });
});

describe("the habit of a channel", () => {
  test("its noise is that of its white noise, its range that of all but one in two hundred at either end", () => {
    const even = Float64Array.from({ length: 2000 }, (_, i) => i);
    const { low, high } = habitOf(even)!;
    expect(low).toBeCloseTo(0.005 * 1999, 0);
    expect(high).toBeCloseTo(0.995 * 1999, 0);
    expect(habitOf(Float64Array.from(white, (v) => 7 * v))!.noise / 7).toBeCloseTo(1, 1);
  });
  test("its repeats are the share of readings equal to the one before; long ones say nothing of habit", () => {
    const twice = Float64Array.from({ length: 400 }, (_, i) => white[i >> 1]);
    expect(habitOf(twice)!.repeats).toBeCloseTo(0.5, 9);
    const held = (samples: number) => Float64Array.from({ length: 400 }, (_, i) => (i < samples ? 5 : white[i]));
    expect(habitOf(held(19))!.repeats).toBeCloseTo(18 / 400, 9);
    expect(habitOf(held(20))!.repeats).toBe(0);
    expect(habitOf(new Float64Array(400))!.repeats).toBe(1);
  });
  test("thirty readings show it, fewer do not", () => {
    expect(habitOf(white.subarray(0, 30))).not.toBeNull();
    expect(habitOf(white.subarray(0, 29))).toBeNull();
  });
  test("readings hardly agree by chance where under three in ten do and noise shows", () => {
    const habit = { low: 100, high: 200, noise: 1, repeats: 0.29 };
    expect(hardlyRepeats(habit)).toBe(true);
    expect(hardlyRepeats({ ...habit, repeats: 0.31 })).toBe(false);
    expect(hardlyRepeats({ ...habit, noise: 0.021 })).toBe(true);
    expect(hardlyRepeats({ ...habit, noise: 0.019 })).toBe(false);
  });
});

describe("what is left of a channel", () => {
  const ten = channel("flow", every(1, 10), new Array(10).fill(1));
  const left = (...faults: LogFault[]) => stretchesOf(ten, faults).map(({ first, last }) => [first, last]);
  test("one reading between two faults is a stretch; none is none", () => {
    expect(left(fault("stuck-value", 1, 4), fault("stuck-value", 6, 8))).toEqual([[0, 0], [5, 5], [9, 9]]); // biome-ignore format: stretches
    expect(left(fault("stuck-value", 0, 4), fault("stuck-value", 5, 9))).toEqual([]);
    expect(left(fault("stuck-value", 2, 7), fault("stuck-value", 3, 4))).toEqual([[0, 1], [8, 9]]); // biome-ignore format: stretches
  });
  test("a fault before the first or behind the last reading cuts nothing", () => {
    expect(left(fault("stuck-value", -9, -1), fault("stuck-value", 20, 30), fault("gap", 12, 15))).toEqual([[0, 9]]);
    expect(left(fault("stuck-value", -9, 0))).toEqual([[1, 9]]);
    expect(left(fault("stuck-value", 9, 30))).toEqual([[0, 8]]);
  });
  test("a fault between readings touches none of them, a hole that begins and ends on readings keeps both", () => {
    expect(left(fault("stuck-value", 3.2, 3.8))).toEqual([[0, 3], [4, 9]]); // biome-ignore format: stretches
    expect(left(fault("gap", 3, 7))).toEqual([[0, 3], [7, 9]]); // biome-ignore format: stretches
    expect(left(fault("gap", 3.5, 6.5))).toEqual([[0, 3], [7, 9]]); // biome-ignore format: stretches
  });
  test("spikes and clocks of another zone cut nothing; a spike is read as missing", () => {
    const faults = [fault("spike", 4, 5), fault("zone-slip", 2, 3), fault("duplicate-times", 6, 7)];
    expect(left(...faults)).toEqual([[0, 9]]);
    expect([...valuesWithoutSpikes(ten, faults)].map(Number.isNaN)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((i) => i === 4 || i === 5));
    expect(valuesWithoutSpikes(ten, [fault("spike", 4, 5, "pressure")])).toBe(ten.values);
  });
  test("a log on change holds its last value to its end", () => {
    const held = channel("running", onChange([0, 5], 30), [0, 1]);
    expect(stretchesOf(held, [])).toEqual([{ first: 0, last: 1, from: 0, to: 30 }]);
  });
  test("the time of several spans is their sum", () => expect(totalTime([span(0, 5), span(7, 10)])).toBe(8));
});

describe("intervals", () => {
  test("the middle one, and the one from which samples are missing: 3.5 of it, or twice what nearly all keep to", () => {
    expect(sampleInterval(every(2, 3))).toEqual({ median: 2, longest: 7 });
    expect(sampleInterval(every(2, 2))).toBeNull();
    expect(sampleInterval(at([0, 1]))).toBeNull();
    expect(sampleInterval(at([0, 1, 2, 3, 4]))).toEqual({ median: 1, longest: 3.5 });
    // One in ten is six times as long: usual for this log.
    const uneven = Array.from({ length: 201 }, (_, i) => i + 5 * Math.floor(i / 10));
    expect(sampleInterval(at(uneven))).toEqual({ median: 1, longest: 12 });
    expect(sampleInterval(onChange([0, 1, 2], 3))).toBeNull();
  });
  test("scans: nine in ten rows on a grid, from twenty on", () => {
    const rows = (count: number, off: number) => {
      let t = 0;
      return onChange([0, ...Array.from({ length: count }, (_, i) => (t += i % 10 < off ? 7.5 : 5 * (1 + (i % 3))))], t + 1);
    };
    expect(scanInterval(rows(20, 0))).toBeCloseTo(5, 9);
    expect(scanInterval(rows(19, 0))).toBeNull();
    expect(scanInterval(rows(400, 1))).toBeCloseTo(5, 9);
    expect(scanInterval(rows(400, 2))).toBeNull();
  });
});

describe("single readings far out", () => {
  test("twice the usual range, out and back; up or down; not the first or the last", () => {
    const [range, count] = [2e4, 900];
    const steady = (change: (p: number, i: number) => number) =>
      told(logged(Array.from({ length: count }, (_, i) => change(4e5 + (range / 2) * Math.sin(i / 40) + white[i], i))));
    expect(steady((p, i) => (i === 300 ? p + 2.1 * range : p))).toEqual([["spike", "pressure", 300, 300]]);
    expect(steady((p, i) => (i === 301 ? p - 2.1 * range : p))).toEqual([["spike", "pressure", 301, 301]]);
    expect(steady((p, i) => (i === 300 ? p + 1.9 * range : p))).toEqual([]);
    expect(steady((p, i) => (i === 0 || i === 899 ? p + 5 * range : p))).toEqual([]);
    expect(steady((p, i) => (i >= 300 && i < 302 ? p + 5 * range : p))).toEqual([]);
  });
  test("a step is none, nor are many: then the site behaves so", () => {
    expect(told(logged(pressure(900, (p, i) => (i > 300 ? p + 9e5 : p)))).filter(([kind]) => kind === "spike")).toEqual([]);
    const spiked = (every: number) => findFaults(logged(pressure(900, (p, i) => (i % every === 7 ? 9.9e5 : p)))).length;
    expect(spiked(300)).toBe(3);
    expect(spiked(240)).toBe(0);
  });
  test("of a channel that never moves nothing stands out", () => {
    expect(told(logged(Array.from({ length: 900 }, (_, i) => (i === 50 ? 9e5 : 4e5))))).toEqual([]);
  });
});

describe("readings that stay the same to the last digit", () => {
  const stuck = (samples: number, step = 1) => {
    const values = pressure(900);
    values.fill(values[400], 400, 400 + samples);
    return told(recordOf([channel("pressure", every(step, 900), values)]));
  };
  test("twenty of them and a minute at least", () => {
    expect(stuck(61)).toEqual([["stuck-value", "pressure", 400, 460]]);
    expect(stuck(60)).toEqual([]);
    expect(stuck(20, 10)).toEqual([["stuck-value", "pressure", 4000, 4190]]);
    expect(stuck(19, 10)).toEqual([]);
  });
  test("at the end of the range they are clipped: ten in all, three at a time, where the wave is cut off sharply", () => {
    const cut = (limit: number) => told(logged(pressure(900, (p) => Math.min(p, limit)))).map(([kind]) => kind);
    expect(new Set(cut(4.44e5))).toEqual(new Set(["clipped"]));
    const held = (...runs: readonly (readonly [number, number])[]) => {
      const values = pressure(900);
      const top = Math.max(...values) + 5e3;
      for (const [from, samples] of runs) values.fill(top, from, from + samples);
      return told(logged(values)).map(([kind, , from, to]) => [kind, from, to]);
    };
    expect(held([100, 5], [300, 5])).toEqual([["clipped", 100, 104], ["clipped", 300, 304]]); // biome-ignore format: runs
    expect(held([100, 5], [300, 4])).toEqual([]);
    expect(held([100, 2], [300, 2], [500, 2], [600, 2], [700, 2], [800, 2])).toEqual([]);
  });
  test("a lost signal that stays where it is lost is told as that", () => {
    const values = pressure(900, (p, i) => (i >= 400 && i < 500 ? -2.5e5 : p));
    expect(told(logged(values))).toEqual([["below-live-zero", "pressure", 400, 499]]);
  });
});
