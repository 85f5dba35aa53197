import { describe, expect, test } from "vitest";
import { medianInterval } from "../../../analysis/numerics/median-interval";
import { pooledMean } from "../../../analysis/numerics/pooled-mean";
import { seededRandom } from "../../../analysis/numerics/random";

describe("pooled mean", () => {
  test("estimates that agree: Student's t over the given errors", () => {
    const pooled = pooledMean([1, 2, 3].map((value) => ({ value, variance: 1 })));
    expect(pooled?.value).toBeCloseTo(2, 12);
    expect(pooled?.high).toBeCloseTo(2 + 4.302652729749 / Math.sqrt(3), 6); // t(0.975, 2) = 4.302652729749, scipy
  });
  test("its interval holds the truth in 92 to 98 % of trials with true scatter between", () => {
    const chance = seededRandom(7);
    let inside = 0;
    for (let trial = 0; trial < 600; trial++) {
      const estimates = Array.from({ length: 6 }, () => {
        const sd = 0.5 + chance.next();
        return { value: 10 + 0.8 * chance.normal() + sd * chance.normal(), variance: sd ** 2 };
      });
      const pooled = pooledMean(estimates)!;
      if (pooled.low <= 10 && 10 <= pooled.high) inside++;
    }
    expect(inside / 600).toBeGreaterThan(0.92);
    expect(inside / 600).toBeLessThan(0.985);
  });
  test("one far off among many is left out", () => {
    const pooled = pooledMean([10, 10.1, 9.9, 10.05, 9.95, 40].map((value) => ({ value, variance: 0.01 })));
    expect(pooled?.value).toBeCloseTo(10, 1);
    expect(pooled?.kept).toEqual([0, 1, 2, 3, 4]);
  });
  test("one alone says nothing of itself", () => expect(pooledMean([{ value: 1, variance: 1 }])).toBeNull());
});

test("the median's interval by order statistics", () => {
  // n = 25: ranks 13 -+ 1.96 * 5 / 2, that is the 8th to the 18th; binomial coverage 95.7 %
  expect(medianInterval(Array.from({ length: 25 }, (_, i) => i + 1))).toEqual({ value: 13, low: 8, high: 19 });
});
