import { expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { valueStep } from "../../../analysis/numerics/value-step";

test("the step of stepped values is found, also in single precision on a high level", () => {
  const chance = seededRandom(1);
  const values = Float32Array.from({ length: 4000 }, () => 400_000 + 690 * chance.below(12));
  expect(valueStep(values)).toBe(690);
});
test("values without steps have none", () => {
  const chance = seededRandom(2);
  expect(valueStep(Float64Array.from({ length: 4000 }, () => chance.normal()))).toBe(0);
});
test("one level is no step", () => {
  expect(valueStep([5, 5, 5])).toBe(0);
});
