import { describe, expect, test } from "vitest";
import { bendOf } from "../../../analysis/numerics/hinge";
import { seededRandom } from "../../../analysis/numerics/random";
import { someValues } from "../../../analysis/numerics/some-values";

describe("where a line bends", () => {
  const x = Array.from({ length: 41 }, (_, i) => i);
  test("two straight lines meet where they meet", () => {
    expect(
      bendOf(
        x,
        x.map((t) => 5 - 0.3 * Math.min(t, 17) + 0.8 * Math.max(0, t - 17)),
      ),
    ).toBeCloseTo(17, 1);
  });
  test("between samples and under noise within the bound of its slopes", () => {
    const chance = seededRandom(4);
    const errors = Array.from(
      { length: 200 },
      () =>
        bendOf(
          x,
          x.map((t) => 0.5 * chance.normal() + 2 * Math.max(0, t - 20.4)),
        ) - 20.4,
    );
    const rmse = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
    expect(rmse).toBeLessThan(0.5); // sd of a knot: about 2 s / (c sqrt(n/2)) = 2 * 0.5 / (2 * 4.5) = 0.11 for lines of 20 points each
  });
  test("four points have no bend", () => expect(bendOf([0, 1, 2, 3], [0, 0, 1, 2])).toBeNaN());
});

test("some values are all of a short column and a spread choice of a long one", () => {
  expect([...someValues([1, Number.NaN, 3])]).toEqual([1, 3]);
  const some = someValues(
    Float64Array.from({ length: 100_000 }, (_, i) => i % 10),
    5000,
  );
  expect(some.length).toBe(5000);
  expect(some.reduce((a, b) => a + b, 0) / 5000).toBeCloseTo(4.5, 1); // a period of the data that divides the stride does not fool it
});
