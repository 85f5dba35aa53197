import { describe, expect, test } from "vitest";
import { median, medianAbsoluteDeviation, quantile, quantiles, rangeOf, robustSpread } from "../../../analysis/numerics/order-statistics";
import { seededRandom } from "../../../analysis/numerics/random";
import { goldenCase, goldenInputs } from "../../builders/reference";

const { output, within } = goldenCase<{ median: number; mad: number; mad_normal: number; q: number[] }>("robust-scale");

describe("quantiles", () => {
  test("median, spread and quantiles agree with SciPy", () => {
    const y = goldenInputs.drift.y;
    expect(within(median(y), output.median)).toBe(true);
    expect(within(medianAbsoluteDeviation(y), output.mad)).toBe(true);
    expect(within(robustSpread(y), output.mad_normal)).toBe(true);
    const levels = [0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95];
    for (const [i, q] of quantiles(y, levels).entries()) expect(within(q, output.q[i])).toBe(true);
    for (const [i, q] of levels.entries()) expect(within(quantile(y, q), output.q[i])).toBe(true);
  });
  test("a missing value is left out", () => {
    expect(median([1, Number.NaN, 3, 2, Number.NaN])).toBe(2);
    expect(rangeOf([Number.NaN, 4, -1])).toEqual({ low: -1, high: 4 });
  });
  test("nothing has no median and no range", () => {
    expect(median([Number.NaN])).toBeNaN();
    expect(rangeOf([])).toBeNull();
  });
  test("selection agrees with sorting on values with many ties", () => {
    const chance = seededRandom(5);
    const values = Float64Array.from({ length: 2001 }, () => chance.below(40));
    expect(quantile(values, 0.37)).toBe(quantiles(values, [0.37])[0]);
  });
});
