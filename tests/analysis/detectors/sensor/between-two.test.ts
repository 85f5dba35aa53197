import { describe, expect, test } from "vitest";
import { betweenTwo } from "../../../../analysis/detectors/sensor/between-two";
import { headLoss } from "../../../../analysis/hydraulics/head-loss";
import type { Sampling } from "../../../../shared/record/log-record";
import { readSiteFacts } from "../../../../shared/site/read-site-facts";
import { cubicMetrePerSecond, metre, seconds } from "../../../../shared/units/quantity";
import { evidenceOf } from "../../../builders/known-evidence";
import { channel, every, onChange, recordOf } from "../../../builders/record";
import { noiseOf, seededRandom } from "../../../builders/signals";

/** 5 kPa at 1 L/s. */
const RESISTANCE = 5e3 / 1e-3 ** 2;
type Drawn = {
  readonly count?: number;
  readonly flow?: (t: number) => number;
  readonly loss?: (q: number) => number;
  readonly second?: Sampling;
  readonly swapped?: boolean;
  readonly leaveOut?: "second" | "flow";
  readonly noise?: number;
  readonly facts?: object;
};
const swing = (t: number) => 1e-3 * (1 + 0.8 * Math.sin(t / 9));
const square = (q: number) => RESISTANCE * q * Math.abs(q);

function between({ count = 300, flow = swing, loss = square, second, swapped = false, leaveOut, noise = 100, facts = {} }: Drawn = {}) {
  const chance = noiseOf(count, seededRandom(3));
  const rows = Array.from({ length: count }, (_, t) => t);
  const upstream = channel("pressure", every(1, count), rows.map((t) => 4e5 + loss(flow(t)) + noise * chance[t]), "pump"); // biome-ignore format: one channel a line
  const there = second ?? every(1, count);
  const downstream = channel("pressure", there, rows.slice(0, there.kind === "even" ? there.count : there.times.length).map(() => 4e5), "tank"); // biome-ignore format: one channel a line
  const pressures = swapped ? [downstream, upstream] : [upstream, downstream];
  const meter = channel("flow", every(1, count), rows.map(flow)); // biome-ignore format: one channel a line
  const channels = [...(leaveOut === "second" ? pressures.slice(0, 1) : pressures), ...(leaveOut === "flow" ? [] : [meter])];
  return betweenTwo(evidenceOf(recordOf(channels), {}, readSiteFacts(facts, "site")));
}
const NOTHING = { resistanceBetween: null, equivalentDistance: null };

describe("the resistance between two sensors", () => {
  test("is the loss over the square of flow, whichever stands first, and lies in its interval", () => {
    for (const swapped of [false, true]) {
      const { value, low, high } = between({ swapped }).resistanceBetween!;
      expect(value / RESISTANCE).toBeCloseTo(1, 1);
      expect(low).toBeLessThan(value);
      expect(high).toBeGreaterThan(value);
      expect(low).toBeGreaterThan(0);
    }
  });
  test("a flow written on change holds until the next", () => {
    // A minute each at 0.4, 0.8 ... 1.6 L/s, written down when it changes.
    const steps = [0.4, 0.8, 1.2, 1.6, 1];
    const pressure = Array.from({ length: 300 }, (_, t) => 4e5 + square(1e-3 * steps[Math.floor(t / 60)]));
    const record = recordOf([
      channel("pressure", every(1, 300), pressure, "pump"),
      channel("pressure", every(1, 300), new Array(300).fill(4e5), "tank"),
      channel("flow", onChange([0, 60, 120, 180, 240], 299), steps.map((q) => 1e-3 * q)), // biome-ignore format: one channel a line
    ]);
    const { value, low, high } = betweenTwo(evidenceOf(record)).resistanceBetween!;
    for (const bound of [value, low, high]) expect(bound / RESISTANCE).toBeCloseTo(1, 6);
  });
  test("backwards flow loses backwards", () => {
    expect(between({ flow: (t) => 1e-3 * Math.sin(t / 9) }).resistanceBetween!.value / RESISTANCE).toBeCloseTo(1, 1);
  });
  test("takes sixty readings of all three", () => {
    expect(between({ count: 60 }).resistanceBetween).not.toBeNull();
    expect(between({ count: 59 })).toEqual(NOTHING);
    expect(between({ count: 100, flow: (t) => (t < 41 ? Number.NaN : swing(t)) })).toEqual(NOTHING);
    expect(between({ count: 100, flow: (t) => (t < 40 ? Number.NaN : swing(t)) }).resistanceBetween).not.toBeNull();
  });
  test("is not claimed where the line may as well be flat, nor without a second pressure or a flow", () => {
    expect(between({ loss: () => 0, noise: 3000 })).toEqual(NOTHING);
    expect(between({ leaveOut: "second" })).toEqual(NOTHING);
    expect(between({ leaveOut: "flow" })).toEqual(NOTHING);
  });
  test("of a long record some readings are enough", () => {
    expect(between({ count: 5000 }).resistanceBetween!.value / RESISTANCE).toBeCloseTo(1, 1);
  });
});

describe("the length of the stated pipe that loses as much (Darcy-Weisbach with Colebrook's factor)", () => {
  const bore = metre(0.04);
  const pipe = (length: number) => ({ length: metre(length), bore, roughness: metre(1.5e-6) });
  test("comes back from a drawn pipe at its typical flow", () => {
    const facts = { pipeInsideDiameter: "40 mm" };
    // A steady flow but for a fifth of the time, so that the flow that the friction factor is taken at is known.
    const flow = (t: number) => (t % 5 === 0 ? 0.2e-3 : 2e-3);
    const distance = between({ flow, loss: (q) => headLoss(pipe(30), cubicMetrePerSecond(q)), facts, noise: 20 }).equivalentDistance!;
    expect(distance.value / 30).toBeCloseTo(1, 1);
    expect(distance.low).toBeLessThan(distance.value);
    expect(distance.high).toBeGreaterThan(distance.value);
    // Water that stands most of the time does not make the usual flow nothing.
    const seldom = (t: number) => (t % 10 < 2 ? 1e-3 * (1 + (t % 70) / 70) : 0);
    const few = between({ flow: seldom, loss: (q) => headLoss(pipe(30), cubicMetrePerSecond(q)), facts, noise: 20 }).equivalentDistance!;
    expect(few.value / 30).toBeCloseTo(1, 1);
  });
  test("is not known without the bore, nor where water only ran backwards", () => {
    expect(between({}).equivalentDistance).toBeNull();
    const backwards = between({ flow: (t) => -swing(t), facts: { pipeInsideDiameter: "40 mm" } });
    expect(backwards.resistanceBetween).not.toBeNull();
    expect(backwards.equivalentDistance).toBeNull();
  });
});

describe("a second sensor on a clock of its own is read where it is nearest", () => {
  const lossWith = (second: Sampling) => between({ second }).resistanceBetween;
  test("a coarser one, and one that writes on change, are read all the same", () => {
    expect(lossWith(every(20, 16))!.value / RESISTANCE).toBeCloseTo(1, 1);
    expect(lossWith(onChange([0, 100, 200], 299))!.value / RESISTANCE).toBeCloseTo(1, 1);
  });
  test("one that begins late or stopped is not read more than half a minute off", () => {
    // Readings up to second 29: those of the first up to second 58 find one, which is 59 of them, one too few.
    expect(lossWith(every(1, 30))).toBeNull();
    expect(lossWith(every(1, 31))).not.toBeNull();
    const from = (start: number) => ({ ...every(1, 300 - start), start: seconds(start) }) as Sampling;
    expect(lossWith(from(270))).toBeNull();
    expect(lossWith(from(269))).not.toBeNull();
  });
});
