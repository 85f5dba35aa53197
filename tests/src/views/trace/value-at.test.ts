import { expect, test } from "vitest";
import { valueAt } from "../../../../src/views/trace/value-at";
import { at, channel, every, onChange } from "../../../builders/record";
import { drawnOf, samplesOf, span } from "../../../builders/trace";

const log = channel(
  "pressure",
  every(1, 100),
  Array.from({ length: 100 }, (_, i) => i),
);

test("with the samples at hand the nearest one is read", () => {
  expect(valueAt(drawnOf(log), samplesOf(log), 41.6, 1)).toEqual({ low: 42, high: 42 });
});
test("a value that holds is the last one before", () => {
  const held = channel("flow", onChange([0, 10], 20), [1, 2]);
  expect(valueAt(drawnOf(held), samplesOf(held), 9.9, 1)).toEqual({ low: 1, high: 1 });
});
test("without them the least and greatest around the pixel are read", () => {
  const read = valueAt(drawnOf(log), null, 40, 10);
  expect(read?.low).toBeLessThanOrEqual(35);
  expect(read?.high).toBeGreaterThanOrEqual(44);
});
test("a missing value and a gap read as nothing", () => {
  const holed = channel("pressure", at([0, 1, 2, 50]), [1, Number.NaN, 3, 4]);
  expect(valueAt(drawnOf(holed), samplesOf(holed), 1, 0.5)).toBeNull();
  expect(valueAt(drawnOf(holed, [span(2, 50)]), samplesOf(holed), 20, 0.5)).toBeNull();
});
