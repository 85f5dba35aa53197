import { expect, test } from "vitest";
import { worstDip } from "../../../../analysis/detectors/tracking/worst-dip";
import { seconds } from "../../../../shared/units/quantity";
import { evidenceOf, recordOf } from "../../../builders/known-evidence";

const [SET, BAND] = [400e3, 10e3];

/** A pressure held at the set one for 200 s but for what is drawn below it, Pa at a second; draws from and to. */
function dipOf(below: Readonly<Record<number, number>>, draws: readonly (readonly [number, number])[] | null) {
  const pressure = Float64Array.from({ length: 200 }, (_, i) => SET - (below[i] ?? 0));
  const record = recordOf({ pressure });
  const all = draws?.map(([from, to]) => ({ from: seconds(from), to: seconds(to), complete: true, volume: null, peakFlow: null }));
  const draw = all === undefined ? {} : { draw: { basis: "flow" as const, draws: all, idle: [] } };
  return worstDip(evidenceOf(record, draw), record.channels[0], SET, BAND);
}

test("the deepest fall in a draw, when it was, how deep, and how long until within the band again", () => {
  expect(dipOf({ 52: 20e3, 53: 30e3, 54: 15e3, 55: 10e3 }, [[50, 90]])).toEqual({ at: 53, depth: 30e3, recovery: 2 });
  expect(dipOf({ 52: 20e3, 120: 25e3 }, [[50, 90], [115, 130]])).toEqual({ at: 120, depth: 25e3, recovery: 1 }); // biome-ignore format: side by side
});
test("a fall within the band is its own recovery", () =>
  expect(dipOf({ 52: 4e3 }, [[50, 90]])).toEqual({ at: 52, depth: 4e3, recovery: 0 }));
test("no fall, no draw, nothing known of draws: no dip", () => {
  expect(dipOf({}, [[50, 90]])).toBeNull();
  expect(dipOf({ 52: 20e3 }, [])).toBeNull();
  expect(dipOf({ 52: 20e3 }, null)).toBeNull();
});
test("a fall belongs to a draw for a minute, and no longer than the draw lasts", () => {
  expect(dipOf({ 109: 20e3 }, [[50, 190]])).toMatchObject({ at: 109 });
  expect(dipOf({ 110: 20e3 }, [[50, 190]])).toBeNull();
  expect(dipOf({ 69: 20e3 }, [[50, 70]])).toMatchObject({ at: 69 });
  expect(dipOf({ 70: 20e3 }, [[50, 70]])).toBeNull();
  expect(dipOf({ 49: 20e3 }, [[50, 70]])).toBeNull();
});
test("a draw under way at the first sample may dip there", () =>
  expect(dipOf({ 0: 20e3 }, [[0, 30]])).toMatchObject({ at: 0, recovery: 1 }));
test("of two equal falls the first is meant", () => expect(dipOf({ 55: 20e3, 80: 20e3 }, [[50, 90]])).toMatchObject({ at: 55 }));
test("where a missing value or the end comes first, nothing is known of the recovery", () => {
  expect(dipOf({ 52: 20e3, 53: Number.NaN }, [[50, 90]])).toMatchObject({ at: 52, recovery: null });
  const toTheEnd = Object.fromEntries(Array.from({ length: 150 }, (_, i) => [50 + i, 20e3 - i]));
  expect(dipOf(toTheEnd, [[50, 90]])).toMatchObject({ at: 50, recovery: null });
});
