import { describe, expect, test } from "vitest";
import { findFaults } from "../../../analysis/faults";
import { at, channel, recordOf } from "../../builders/record";
import { noiseOf, seededRandom } from "../../builders/signals";

/**
 * Three hours of a pressure that wanders within minutes (AR(1) 0.99 a second) beside a flow, and a leap of the stamps after the first. The times are
 * those of a clock put on by `leap`, or those of a logger that paused: then the readings of that time are lost.
 */
function kinds(leap: number, { paused = false, step = 1, columns = 2 } = {}): string[] {
  const chance = seededRandom(21);
  const [count, before] = [10_800, 3_600];
  const lost = paused ? Math.round(leap / step) : 0;
  const all = ["pressure", "flow"].slice(0, columns).map(() => noiseOf(count + lost, chance, 0.99));
  const times = at(Array.from({ length: count }, (_, i) => i * step + (i >= before ? leap : 0)));
  const kept = (values: Float64Array) => Array.from(values.filter((_, i) => i < before || i >= before + lost));
  const log = recordOf(
    all.map((values, k) =>
      channel((["pressure", "flow"] as const)[k], times, kept(values.map((v) => (k === 0 ? 4e5 + 3e4 * v : 1e-3 + 2e-4 * v)))),
    ),
  );
  return findFaults(log).map(({ kind, from, to }) => `${kind} ${from} ${to}`);
}

describe("stamps that leap", () => {
  test("by an hour while everything goes on: the clock was put to another zone", () => {
    expect(kinds(3600)).toEqual(["gap 3599 7200", "zone-slip 3599 7200"]);
  });
  test("by whole hours, half and quarter hours (Kolkata, Kathmandu) alike", () => {
    for (const leap of [7200, 5.5 * 3600, 5.75 * 3600]) expect(kinds(leap)).toContain(`zone-slip 3599 ${3600 + leap}`);
  });
  test("by an hour after which nothing is as it was: a pause", () => expect(kinds(3600, { paused: true })).toEqual(["gap 3599 7200"]));
  test("by some time that no two zones lie apart: a pause, whatever the readings do", () => expect(kinds(3717)).toEqual(["gap 3599 7317"]));
  test("by more than any two zones lie apart: a pause", () => expect(kinds(27 * 3600)).toEqual(["gap 3599 100800"]));
  test("sampled every five minutes a leap of an hour says too little", () =>
    expect(kinds(3600, { step: 300, columns: 1 })).toEqual([`gap ${3599 * 300} ${3600 * 300 + 3600}`]));
});
