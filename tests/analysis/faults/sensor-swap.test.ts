import { describe, expect, test } from "vitest";
import { findFaults } from "../../../analysis/faults";
import { stretchesOf } from "../../../analysis/faults/observed";
import { channel, every, at as listed, recordOf } from "../../builders/record";
import { noiseOf, seededRandom } from "../../builders/signals";

const PSI = 6894.757293168;
const [COUNT, SWAP] = [6000, 4000];

type Drawn = { readonly change?: (p: number, i: number) => number; readonly step?: number; readonly beside?: "flow" | "tank" | "none" };

/** Pressure in psi that wanders within minutes around 55 (2 psi, AR(1) 0.98), with 0.2 psi of a sensor's noise; drawn as another sensor sees it. */
function faultsOf({ change = (p) => p, step = 1, beside = "none" }: Drawn) {
  const chance = seededRandom(4);
  const water = noiseOf(COUNT, chance, 0.98).map((v) => 55 + 2 * v);
  const noise = noiseOf(COUNT, chance);
  const clock = every(step, COUNT);
  const pressure = Array.from(water, (p, i) => Math.round(100 * change(p + 0.2 * noise[i], i)) / 100);
  const second = {
    ...channel(
      "pressure",
      clock,
      Array.from(water, (p) => (p + 1 + 0.2 * chance.normal()) * PSI),
    ),
    heading: "tank",
  };
  const flow = channel(
    "flow",
    clock,
    Array.from(noiseOf(COUNT, chance, 0.98), (q, i) => 1e-3 + 1e-4 * q + (i < SWAP ? 0 : 1e-3)),
  );
  const others = beside === "none" ? [] : [beside === "flow" ? flow : second];
  const record = recordOf([
    channel(
      "pressure",
      clock,
      pressure.map((p) => p * PSI),
    ),
    ...others,
  ]);
  return { faults: findFaults(record), record };
}
const told = (drawn: Drawn) => faultsOf(drawn).faults.map(({ kind, channel: heading, from }) => [kind, heading, from]);
const fromThere = (change: (p: number, i: number) => number) => (p: number, i: number) => (i < SWAP ? p : change(p, i));

describe("another sensor from a sample on", () => {
  test("with another zero", () => expect(told({ change: fromThere((p) => p + 9) })).toEqual([["sensor-swap", "pressure", SWAP]]));
  test("with another span", () => expect(told({ change: fromThere((p) => 0.85 * p) })).toEqual([["sensor-swap", "pressure", SWAP]]));
  test("with more noise, told to a block of 32 samples", () => {
    const chance = seededRandom(9);
    const [[kind, , from]] = told({ change: fromThere((p) => p + 0.8 * chance.normal()) });
    expect(kind).toBe("sensor-swap");
    expect(Math.abs(Number(from) - SWAP)).toBeLessThan(32);
  });
  test("with steps of half a psi, at any sampling", () => {
    const stepped = fromThere((p) => Math.round(2 * p) / 2);
    for (const step of [1, 60]) {
      const [[kind, , from]] = told({ change: stepped, step });
      expect(kind).toBe("sensor-swap");
      expect(Math.abs(Number(from) / step - SWAP)).toBeLessThan(20);
    }
  });
  test("sampled once a minute, by a second pressure that did not shift", () => {
    const shifted = fromThere((p) => p + 6);
    expect(told({ change: shifted, step: 60, beside: "tank" })).toEqual([["sensor-swap", "pressure", SWAP * 60]]);
    expect(told({ change: shifted, step: 60 })).toEqual([]);
  });
  test("the shorter part is left out, and nothing of the other", () => {
    const { faults, record } = faultsOf({ change: fromThere((p) => p + 9) });
    expect(stretchesOf(record.channels[0], faults).map(({ first, last }) => [first, last])).toEqual([[0, SWAP - 1]]);
  });
});

describe("what looks like another sensor and is none", () => {
  test("a set pressure that the pump reaches within seconds", () =>
    expect(told({ change: fromThere((p, i) => p + 9 * Math.min(1, (i - SWAP) / 6)) })).toEqual([]));
  test("a blow that shifts all readings and swings on", () =>
    expect(told({ change: fromThere((p, i) => p + 9 + 6 * Math.exp((SWAP - i) / 5) * Math.cos((i - SWAP) * 1.2)) })).toEqual([]));
  test("two shifts of the same height: a pump that starts and stops", () =>
    expect(told({ change: (p, i) => (i >= SWAP && i < SWAP + 900 ? p + 9 : p) })).toEqual([]));
  test("a shift at which the flow steps too", () => expect(told({ change: fromThere((p) => p + 9), beside: "flow" })).toEqual([]));
  test("a rest at the end, in which the water's own unrest is gone", () =>
    expect(told({ change: fromThere((p) => 55 + 0.1 * (p - 55)) })).toEqual([]));
  test("nothing at all, also of an uneven clock", () => {
    expect(told({})).toEqual([]);
    const chance = seededRandom(2);
    let t = 0;
    const times = listed(Array.from({ length: 3000 }, () => (t += 0.5 + chance.next())));
    const values = Array.from(noiseOf(3000, chance, 0.95), (p) => 4e5 + 1e4 * p);
    expect(findFaults(recordOf([channel("pressure", times, values)]))).toEqual([]);
  });
});
