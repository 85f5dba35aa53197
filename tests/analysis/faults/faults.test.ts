import { describe, expect, test } from "vitest";
import { findFaults } from "../../../analysis/faults";
import { stretchesOf } from "../../../analysis/faults/observed";
import { seededRandom } from "../../../analysis/numerics/random";
import { seconds } from "../../../shared/units/quantity";
import { at, channel, drawn, every, onChange, recordOf } from "../../builders/record";

const kinds = (record: Parameters<typeof findFaults>[0]) => findFaults(record).map(({ kind, from, to }) => [kind, from, to]);
/** A pressure of a few bar that swings slowly, with the noise of a sensor. */
const pressure = (n: number, change: (p: number, i: number) => number = (p) => p) => {
  const chance = seededRandom(3);
  return Array.from({ length: n }, (_, i) => change(4e5 + 5e4 * Math.sin(i / 40) + 600 * chance.normal(), i));
};
const logged = (values: readonly number[]) => recordOf([channel("pressure", every(1, values.length), values)]);

describe("gaps", () => {
  test("three samples in a row absent are a gap, one or two are not", () => {
    const times = Array.from({ length: 100 }, (_, i) => i).filter((t) => ![20, 40, 41, 60, 61, 62, 63].includes(t));
    expect(
      kinds(
        recordOf([
          channel(
            "current",
            at(times),
            times.map(() => 1),
          ),
        ]),
      ),
    ).toEqual([["gap", 59, 64]]);
  });
  test("uneven sampling is not full of gaps", () => {
    const chance = seededRandom(5);
    let t = 0;
    const times = Array.from({ length: 500 }, () => (t += 0.4 + 3.2 * chance.next()));
    expect(kinds(recordOf([channel("current", at(times), times)]))).toEqual([]);
  });
  test("a long silence of a log on change is none", () => {
    expect(kinds(recordOf([channel("flow", onChange([0, 10, 20, 8000], 9000), [0, 1, 0, 1])]))).toEqual([]);
  });
  test("values missing for long are a gap of their channel", () => {
    expect(kinds(recordOf([channel("running", every(10, 12), drawn("..##    ##.."))]))).toEqual([["gap", 30, 80]]);
  });
  test("what the reading already said is not said twice", () => {
    const faults = [{ kind: "gap" as const, channel: null, from: seconds(3), to: seconds(9), note: { kind: "no-samples" as const } }];
    const times = [0, 1, 2, 3, 9, 10, 11, 12, 13, 14];
    expect(findFaults(recordOf([channel("current", at(times), times)], faults))).toHaveLength(1);
  });
});

describe("stretches", () => {
  test("samples at either end of a gap still hold", () => {
    const flow = channel("flow", at([0, 1, 2, 9, 10, 11]), [1, 1, 1, 1, 1, 1]);
    const gap = { kind: "gap" as const, channel: null, from: seconds(2), to: seconds(9), note: { kind: "no-samples" as const } };
    expect(stretchesOf(flow, [gap])).toEqual([
      { first: 0, last: 2, from: 0, to: 2 },
      { first: 3, last: 5, from: 9, to: 11 },
    ]);
  });
  test("stuck samples are cut out with their ends, and only from their own channel", () => {
    const flow = channel("flow", every(1, 10), new Array(10).fill(1));
    const stuck = {
      kind: "stuck-value" as const,
      channel: "flow",
      from: seconds(3),
      to: seconds(6),
      note: { kind: "no-samples" as const },
    };
    expect(stretchesOf(flow, [stuck]).map(({ first, last }) => [first, last])).toEqual([
      [0, 2],
      [7, 9],
    ]);
    expect(stretchesOf(flow, [{ ...stuck, channel: "other" }])).toHaveLength(1);
  });
});

describe("stuck and clipped", () => {
  test("a reading that never repeats by chance and then stays is stuck", () => {
    const values = pressure(900);
    values.fill(values[400], 400, 520);
    expect(kinds(logged(values))).toEqual([["stuck-value", 400, 519]]);
  });
  test("so is a flow that is not nought; one that rests at nought, or is read in coarse steps, is not", () => {
    const chance = seededRandom(6);
    const drawn = (step: number, held: number) => {
      const values = Array.from({ length: 900 }, (_, i) => (i % 300 < 150 ? 0 : 1e-3 + 1e-5 * chance.normal()));
      values.fill(held, 460, 560);
      return kinds(recordOf([channel("flow", every(1, 900), step > 0 ? values.map((q) => Math.round(q / step) * step) : values)]));
    };
    expect(drawn(0, 1.01e-3)).toEqual([["stuck-value", 460, 559]]);
    expect(drawn(0, 0)).toEqual([]);
    expect(drawn(5e-5, 1e-3)).toEqual([]);
  });
  test("readings held at the end of the range are clipped", () => {
    expect(new Set(kinds(logged(pressure(900, (p) => Math.min(p, 4.4e5)))).map(([kind]) => kind))).toEqual(new Set(["clipped"]));
  });
  test("a wave that turns by itself rests at its top for as long as its digits do not show the turn", () => {
    const rounded = Array.from({ length: 900 }, (_, i) => Math.round((4e5 + 3e4 * Math.sin(i / 7)) / 690) * 690);
    expect(kinds(logged(rounded))).toEqual([]);
  });
  test("coarse steps repeat with nothing wrong", () => {
    expect(kinds(logged(pressure(900, (p) => Math.round(p / 32_800) * 32_800)))).toEqual([]);
  });
  test("a model without noise that rests is not stuck", () => {
    expect(kinds(logged(Array.from({ length: 900 }, (_, i) => (i < 500 ? 4e5 + 100 * i : 4.5e5))))).toEqual([]);
  });
});

describe("spikes and lost signals", () => {
  test("one reading far out is a spike", () => {
    expect(kinds(logged(pressure(900, (p, i) => (i === 300 ? 9.9e5 : p))))).toEqual([["spike", 300, 300]]);
  });
  test("a hammer within twice the usual range is not", () => {
    expect(kinds(logged(pressure(900, (p, i) => (i === 300 ? p + 1.2e5 : p))))).toEqual([]);
  });
  test("a current loop without current", () => {
    expect(kinds(logged(pressure(900, (p, i) => (i >= 200 && i < 230 ? -2.5e5 : p))))).toEqual([["below-live-zero", 200, 229]]);
  });
});
