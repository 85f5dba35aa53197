import { describe, expect, test } from "vitest";
import { findFaults } from "../../../analysis/faults";
import { habitOf } from "../../../analysis/faults/channel-habit";
import { stretchesOf } from "../../../analysis/faults/observed";
import { scanInterval } from "../../../analysis/faults/scan-interval";
import { changeAgainst } from "../../../analysis/faults/sensor-swap/by-another-sensor";
import { changeOfLevel } from "../../../analysis/faults/sensor-swap/by-level";
import { changeOfNoise } from "../../../analysis/faults/sensor-swap/by-noise";
import { changeOfSteps } from "../../../analysis/faults/sensor-swap/by-steps-of-values";
import type { LogFault } from "../../../shared/record/log-fault";
import { seconds } from "../../../shared/units/quantity";
import { channel, every, onChange, recordOf } from "../../builders/record";
import { noiseOf, seededRandom } from "../../builders/signals";

/** Signals whose answer is known by how they are made, on either side of what each kind of fault asks for. */
const [COUNT, SWAP] = [6000, 4000];
const NOISE = 1400; // Pa
const noise = noiseOf(COUNT, seededRandom(5));
/** Pa: wanders within minutes by 14 kPa. */
const water = noiseOf(COUNT, seededRandom(4), 0.98).map((v) => 4e5 + 14e3 * v);
const drawn = (change: (p: number, i: number) => number) => water.map((p, i) => change(p + NOISE * noise[i], i));
const logged = (values: ArrayLike<number>) => recordOf([channel("pressure", every(1, values.length), values)]);

describe("a shift of all readings between two samples", () => {
  const HEIGHT = 150e3;
  const shifted = (more: (i: number) => number = () => 0) => drawn((p, i) => (i < SWAP ? p : p + HEIGHT) + more(i) * HEIGHT);
  test("stands out by eight spreads of the noise", () => {
    const low = drawn((p, i) => (i < SWAP ? p : p + 40e3));
    expect(changeOfLevel(low, 40e3 / 12, [])?.at).toBe(SWAP);
    expect(changeOfLevel(low, 40e3 / 7, [])).toBeNull();
  });
  test("leaves no more than a tenth of its height to the next sample", () => {
    expect(changeOfLevel(shifted((i) => (i === SWAP ? -0.07 : 0)), NOISE, [])?.at).toBe(SWAP); // biome-ignore format: one
    expect(changeOfLevel(shifted((i) => (i === SWAP ? -0.15 : 0)), NOISE, [])).toBeNull(); // biome-ignore format: one
  });
  test("stands between readings that hold still, before it and after it", () => {
    for (const beside of [SWAP - 2, SWAP + 1]) {
      expect(changeOfLevel(shifted((i) => (i === beside ? 0.1 : 0)), NOISE, [])?.at).toBe(SWAP); // biome-ignore format: one
      expect(changeOfLevel(shifted((i) => (i === beside ? 0.25 : 0)), NOISE, [])).toBeNull(); // biome-ignore format: one
    }
  });
  test("is the only one of its height: two knocks of four fifths of it are too many, one is not", () => {
    const knocked = (...at: number[]) => changeOfLevel(shifted((i) => (at.includes(i) ? 0.8 : 0)), NOISE, []); // biome-ignore format: one
    expect(knocked(700)?.at).toBe(SWAP);
    expect(knocked(700, 1400)).toBeNull();
  });
});

describe("a shift against another pressure", () => {
  /** The difference goes to and fro within a range, evenly: its middle four fifths are 0.8 of it. */
  const RANGE = 20e3;
  const toAndFro = (i: number) => RANGE * (Math.abs((i % 80) / 40 - 1) - 0.5);
  const against = (shift: number, offset = 0) => {
    const values = drawn((p, i) => p + offset + toAndFro(i) + (i < SWAP ? 0 : shift));
    return changeAgainst(values, drawn((p) => p)); // biome-ignore format: one
  };
  test("is half as much again as the difference does anyhow", () => {
    expect(against(1.5 * 0.8 * RANGE * 1.1)?.at).toBe(SWAP);
    expect(against(1.5 * 0.8 * RANGE * 0.9)).toBeNull();
  });
  test("happens for more than half between two samples; what is left may follow", () => {
    const other = drawn((p) => p); // biome-ignore format: one
    const first = (share: number) => (p: number, i: number) =>
      i < SWAP ? p : p + 40e3 * Math.min(1, share + ((1 - share) * (i - SWAP)) / 12);
    expect(changeAgainst(drawn(first(0.7)), other)?.at).toBe(SWAP);
    expect(changeAgainst(drawn(first(0.4)), other)).toBeNull();
  });
  test("goes up or down, whichever of the two stands higher", () => {
    for (const shift of [-40e3, 40e3]) for (const offset of [-1e5, 1e5]) expect(against(shift, offset)?.at).toBe(SWAP);
  });
});

test("a louder sensor is told but where what stands beside it changed too, so that less than 15 in 100 of its pairs are turned round", () => {
  const louder = drawn((p, i) => (i < SWAP ? p : p + 6 * NOISE * noise[(i * 7 + 13) % COUNT]));
  /** Even over 0 to 1, and from the change on higher by `shift`: (1 - shift)^2 / 2 of the pairs are turned round. */
  const beside = (shift: number) =>
    channel(
      "speed",
      every(1, COUNT),
      Array.from({ length: COUNT }, (_, i) => ((Math.floor(i / 32) * 0.618034) % 1) + (i < SWAP ? 0 : shift)),
    );
  expect(Math.abs(changeOfNoise(louder, [beside(0)])!.at - SWAP)).toBeLessThan(32);
  expect(changeOfNoise(louder, [beside(0.3)])).not.toBeNull();
  expect(changeOfNoise(louder, [beside(0.6)])).toBeNull();
});

test("another converter is told to the very reading where no reading of the finer one lies on the coarse one's steps", () => {
  const COARSE = 3450; // Pa
  const fine = (p: number, i: number) => Math.round(p / COARSE) * COARSE + 414 + ((i * 7) % 12) * 69;
  const coarse = (p: number) => Math.round(p / COARSE) * COARSE;
  const finer = drawn((p, i) => (i < SWAP ? coarse(p) : fine(p, i)));
  expect(changeOfSteps(finer)).toEqual({ at: SWAP, sign: "steps" });
  expect(changeOfSteps(finer.toReversed())).toEqual({ at: COUNT - SWAP, sign: "steps" });
});

describe("the scans of a log on change", () => {
  const summed = (steps: readonly number[]) => {
    let t = 0;
    return onChange([0, ...steps.map((step) => (t += step))], t + 1);
  };
  const scans = Array.from({ length: 120 }, (_, i) => 5 * (1 + (i % 3)));
  test("two channels that changed in one scan share its instant, which is no interval", () => {
    expect(scanInterval(summed(scans.flatMap((step) => [step, 0])))).toBeCloseTo(5, 9);
  });
  test("long silences, over which the jitter of many scans has added up, do not speak against it", () => {
    expect(scanInterval(summed(scans.flatMap((step, i) => (i % 3 === 0 ? [step, 47.5] : [step]))))).toBeCloseTo(5, 9);
    expect(scanInterval(summed(scans.flatMap((step, i) => (i % 3 === 0 ? [step, 37.5] : [step]))))).toBeNull();
  });
});

describe("single readings far out", () => {
  const spiked = (count: number, often: number) =>
    findFaults(
      logged(Array.from({ length: count }, (_, i) => (i % often === 77 ? 9e5 : 4e5 + 1e4 * Math.sin(i / 40) + 100 * noise[i % COUNT]))),
    );
  test("are told as far out, up to a thousandth of the readings", () => {
    const eight = spiked(10_000, 1250);
    expect(eight.map(({ kind, note }) => [kind, note])).toEqual(new Array(8).fill(["spike", { kind: "far-out" }]));
    expect(spiked(10_000, 900)).toEqual([]);
  });
});

describe("readings that stay", () => {
  /** Pa, to 300 Pa: a slow swing with noise. */
  const swing = (i: number) => 300 * Math.round((4e5 + 5e4 * Math.sin(i / 40) + 600 * noise[i]) / 300);
  test("are told with how often the same reading came", () => {
    const values = Array.from({ length: 900 }, (_, i) => swing(i));
    values.fill(values[400], 400, 520);
    expect(findFaults(logged(values)).map(({ kind, note }) => [kind, note])).toEqual([
      ["stuck-value", { kind: "same-reading", times: 120 }],
    ]);
  });
  test("at the end of the range are told as held there, also where only their begin or only their end is sharp", () => {
    const TOP = 471e3;
    const pinned = (creeps: readonly [before: boolean, after: boolean]) => {
      const values = Array.from({ length: 900 }, (_, i) => swing(i));
      for (const at of [100, 300, 500, 700]) {
        values.fill(TOP, at, at + 5);
        if (creeps[0]) values[at - 1] = TOP - 600;
        if (creeps[1]) values[at + 5] = TOP - 600;
      }
      return findFaults(logged(values)).map(({ kind, note }) => `${kind} ${note.kind}`);
    };
    for (const one of [[false, false], [true, false], [false, true]] as const) // biome-ignore format: three ways
      expect(pinned(one)).toEqual(new Array(4).fill("clipped held-at-end"));
    expect(pinned([true, true])).toEqual([]);
  });
});

test("a hole is three missing values, not two", () => {
  const holed = (missing: number) => {
    const values = Array.from({ length: 60 }, (_, i) => (i >= 20 && i < 20 + missing ? Number.NaN : 1));
    return findFaults(recordOf([channel("current", every(1, 60), values)])).map(({ kind, from, to }) => [kind, from, to]);
  };
  expect(holed(2)).toEqual([]);
  expect(holed(3)).toEqual([["gap", 19, 23]]);
});

test("faults cut a channel in any order in which they come", () => {
  const ten = channel("flow", every(1, 10), new Array(10).fill(1));
  const stuck = (from: number, to: number): LogFault => ({
    kind: "stuck-value",
    channel: null,
    from: seconds(from),
    to: seconds(to),
    note: { kind: "no-samples" },
  });
  const left = (...faults: LogFault[]) => stretchesOf(ten, faults).map(({ first, last }) => [first, last]);
  expect(left(stuck(6, 8), stuck(1, 2))).toEqual(left(stuck(1, 2), stuck(6, 8)));
  expect(left(stuck(6, 8), stuck(1, 2))).toEqual([[0, 0], [3, 5], [9, 9]]); // biome-ignore format: stretches
});

test("the habit of a record of a hundred thousand readings is that of its neighbours, however it swings", () => {
  const long = noiseOf(100_000, seededRandom(8)).map((v, i) => v + 50 * Math.sin(i / 1000));
  expect(habitOf(long)!.noise).toBeCloseTo(1, 1);
});
