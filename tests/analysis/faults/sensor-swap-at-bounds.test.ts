import { describe, expect, test } from "vitest";
import { findFaults } from "../../../analysis/faults";
import { changeAgainst } from "../../../analysis/faults/sensor-swap/by-another-sensor";
import { changeOfLevel } from "../../../analysis/faults/sensor-swap/by-level";
import { changeOfNoise } from "../../../analysis/faults/sensor-swap/by-noise";
import { changeOfSteps } from "../../../analysis/faults/sensor-swap/by-steps-of-values";
import { channel, every, recordOf } from "../../builders/record";
import { noiseOf, seededRandom } from "../../builders/signals";

const [COUNT, SWAP] = [6000, 4000];
/** Pa: a pressure that wanders within minutes by 14 kPa, and a sensor's noise of 1.4 kPa. */
const wander = (count: number, seed = 4) => noiseOf(count, seededRandom(seed), 0.98).map((v) => 4e5 + 14e3 * v);
const noise = noiseOf(COUNT, seededRandom(5));
const NOISE = 1400;
const drawn = (change: (p: number, i: number) => number = (p) => p, count = COUNT) =>
  wander(count).map((p, i) => change(p + NOISE * noise[i % COUNT], i));
const told = (values: Float64Array, step = 1) =>
  findFaults(recordOf([channel("pressure", every(step, values.length), values)])).map(({ kind, from, to }) => [kind, from, to]);

describe("the part that is left out", () => {
  const shifted = (from: number) => told(drawn((p, i) => (i < from ? p : p + 62e3)));
  test("is the shorter one, before or after", () => {
    expect(shifted(4000)).toEqual([["sensor-swap", 4000, 5999]]);
    expect(shifted(2000)).toEqual([["sensor-swap", 0, 1999]]);
  });
  test("needs two hundred readings and a twentieth of the record to be known", () => {
    expect(shifted(310)).toEqual([["sensor-swap", 0, 309]]);
    expect(shifted(290)).toEqual([]);
    expect(shifted(5690)).toEqual([["sensor-swap", 5690, 5999]]);
    expect(shifted(5710)).toEqual([]);
    const short = (from: number, count: number) => told(drawn((p, i) => (i < from ? p : p + 62e3), count));
    expect(short(205, 410)).toEqual([["sensor-swap", 0, 204]]);
    expect(short(195, 410)).toEqual([]);
    expect(short(199, 398)).toEqual([]);
  });
});

describe("all readings shift at once", () => {
  const level = (change: (p: number, i: number) => number) => changeOfLevel(drawn(change), NOISE, []);
  const from = (change: (p: number, i: number) => number) => (p: number, i: number) => (i < SWAP ? p : change(p, i));
  test("up or down, told to the very reading", () => {
    expect(level(from((p) => p + 62e3))?.at).toBe(SWAP);
    expect(level(from((p) => p - 62e3))?.at).toBe(SWAP);
    expect(level((p) => p)).toBeNull();
  });
  test("all of the height between two readings: what is left for the next by over a tenth is the water's own", () => {
    const late = (share: number) => level((p, i) => (i < SWAP ? p : i === SWAP ? p + (1 - share) * 150e3 : p + 150e3));
    expect(late(0.03)?.at).toBe(SWAP);
    expect(late(0.2)).toBeNull();
  });
  test("for good: not where the shift dies away, nor where the water rests afterwards", () => {
    expect(level(from((p, i) => p + 62e3 * Math.exp((SWAP - i) / 300)))).toBeNull();
    expect(level(from((p) => 4.6e5 + 0.02 * (p - 4e5)))).toBeNull();
  });
  test("not where another channel steps there too, which one that only goes on does not", () => {
    const beside = (step: number) => [
      channel(
        "flow",
        every(1, COUNT),
        wander(COUNT, 8).map((q, i) => q + (i < SWAP ? 0 : step)),
      ),
    ];
    const shifted = drawn(from((p) => p + 62e3));
    expect(changeOfLevel(shifted, NOISE, beside(0))?.at).toBe(SWAP);
    expect(changeOfLevel(shifted, NOISE, beside(2e5))).toBeNull();
  });
  test("not where three other steps are as high", () => {
    const hammered = (times: number) =>
      level((p, i) => (i < SWAP ? p : p + 62e3) + (i > 500 && i % 700 < 1 && i / 700 <= times ? 62e3 : 0));
    expect(hammered(0)?.at).toBe(SWAP);
    expect(hammered(3)).toBeNull();
  });
});

describe("the noise changes for good", () => {
  const more = noiseOf(COUNT, seededRandom(12));
  // Second differences of AR(1) 0.98 have 6 - 8 r + 2 r^2 of its variance, those of white noise 6: the wandering water counts as 1.6 kPa of noise.
  const base = Math.hypot(NOISE, 14e3 * Math.sqrt((6 - 8 * 0.98 + 2 * 0.98 ** 2) / 6));
  const louder = (times: number) => drawn((p, i) => (i < SWAP ? p : p + base * Math.sqrt(times ** 2 - 1) * more[i]));
  test("to twice as much, or to half; told to a block", () => {
    expect(Math.abs(changeOfNoise(louder(2.2), [])!.at - SWAP)).toBeLessThan(32);
    expect(changeOfNoise(louder(1.5), [])).toBeNull();
    const quieter = louder(2.2).map((_, i, all) => all[COUNT - 1 - i]);
    expect(Math.abs(changeOfNoise(quieter, [])!.at - (COUNT - SWAP))).toBeLessThan(32);
  });
  test("missing readings hide nothing; a part without readings is left out", () => {
    const holed = louder(2.5).map((p, i) => (i % 50 === 7 || (i > 1000 && i < 1100) ? Number.NaN : p));
    expect(Math.abs(changeOfNoise(holed, [])!.at - SWAP)).toBeLessThan(32);
  });
  test("not where the pump or the water changed with it", () => {
    const beside = (step: number) => [
      channel(
        "speed",
        every(1, COUNT),
        noiseOf(COUNT, seededRandom(3), 0.9).map((v, i) => v + (i < SWAP ? 0 : step)),
      ),
    ];
    expect(changeOfNoise(louder(2.2), beside(0))).not.toBeNull();
    expect(changeOfNoise(louder(2.2), beside(5))).toBeNull();
    expect(changeOfNoise(louder(2.2), beside(-5))).toBeNull();
  });
  test("not where the water went to rest with it", () => {
    const rests = drawn((p, i) => (i < SWAP ? p + 3 * NOISE * more[i] : 4e5 + NOISE * noise[i]));
    expect(changeOfNoise(rests, [])).toBeNull();
  });
});

describe("the readings are stepped otherwise", () => {
  const stepped = (p: number, step: number) => Math.round(p / step) * step;
  const fine = 69;
  test("by a coarser or a finer converter, told near its very reading", () => {
    const coarser = drawn((p, i) => stepped(p, i < SWAP ? fine : 3450));
    const finer = drawn((p, i) => stepped(p, i < SWAP ? 3450 : fine));
    for (const values of [coarser, finer]) expect(Math.abs(changeOfSteps(values)!.at - SWAP)).toBeLessThan(20);
  });
  test("not by the same, nor within two hundred readings of an end", () => {
    expect(changeOfSteps(drawn((p) => stepped(p, 3450)))).toBeNull();
    expect(changeOfSteps(drawn((p, i) => stepped(p, i < 150 ? fine : 3450)))).toBeNull();
    expect(changeOfSteps(drawn((p, i) => stepped(p, i < COUNT - 150 ? fine : 3450)))).toBeNull();
  });
});

describe("a pressure that shifts against another", () => {
  const other = wander(COUNT).map((p, i) => p + 5e3 + NOISE * noise[(i + 999) % COUNT]);
  const against = (change: (p: number, i: number) => number, second = other) => changeAgainst(drawn(change), second);
  test("at once and for good is told, of the one that moved", () => {
    const shifted = (p: number, i: number) => (i < SWAP ? p : p + 40e3);
    expect(against(shifted)?.at).toBe(SWAP);
    expect(against((p) => p, other.map((p, i) => (i < SWAP ? p : p + 40e3)))).toBeNull(); // biome-ignore format: one
    expect(against((p) => p)).toBeNull();
  });
  test("not slowly, as filth does it, nor by less than half as much again as the difference moves anyhow", () => {
    expect(against((p, i) => (i < SWAP ? p : p + 40e3 * Math.min(1, (i - SWAP) / 900)))).toBeNull();
    expect(against((p, i) => (i < SWAP ? p : p + 2.5e3))).toBeNull();
  });
  test("missing readings leave it open", () => {
    expect(against((p, i) => (i >= 1000 && i < 1100 ? Number.NaN : i < SWAP ? p : p + 40e3))).toBeNull();
  });
});
