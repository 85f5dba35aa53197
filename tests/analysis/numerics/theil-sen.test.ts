import { describe, expect, test } from "vitest";
import { leastSquaresLine, reach95 } from "../../../analysis/numerics/regression";
import { robustLine } from "../../../analysis/numerics/robust-line";
import { mannKendall, repeatedMedians, theilSen } from "../../../analysis/numerics/theil-sen";
import { goldenCase, goldenInputs } from "../../builders/reference";

const { t, y } = goldenInputs.drift;
type Line = { slope: number; intercept: number; low: number; high: number; stderr: number; intercept_stderr: number; r: number };

describe("lines through points with outliers and ties", () => {
  test.each([
    ["theil-sen-95", 0.95],
    ["theil-sen-90", 0.9],
  ])("%s agrees with SciPy", (id, level) => {
    const { output, within } = goldenCase<Line>(id);
    const line = theilSen(t, y, level)!;
    for (const key of ["slope", "intercept", "low", "high"] as const) expect(within(line[key], output[key])).toBe(true);
  });
  test("repeated medians agree with SciPy", () => {
    const { output, within } = goldenCase<Line>("siegel");
    expect(within(repeatedMedians(t, y)!.slope, output.slope)).toBe(true);
  });
  test("Mann-Kendall agrees with SciPy", () => {
    const { output, within } = goldenCase<{ S: number; varS: number; Z: number }>("kendall");
    const trend = mannKendall(t, y);
    expect(trend.s).toBe(output.S);
    expect(within(trend.variance, output.varS)).toBe(true);
    expect(within(trend.z, output.Z)).toBe(true);
  });
  test("least squares agree with SciPy", () => {
    const { output, within } = goldenCase<Line>("ols");
    const line = leastSquaresLine(t, y)!;
    expect(within(line.slope, output.slope)).toBe(true);
    expect(within(line.intercept, output.intercept)).toBe(true);
    expect(within(line.slopeSd, output.stderr)).toBe(true);
    expect(within(line.interceptSd, output.intercept_stderr)).toBe(true);
    expect(within(line.correlation, output.r)).toBe(true);
    expect(within(line.slope - reach95(line.slopeSd, line.points - 2), output.low)).toBe(true);
  });
  test("the robust line keeps to the slope where seven outliers move least squares", () => {
    const line = robustLine(t, y)!;
    expect(line.low).toBeLessThan(-0.00002);
    expect(line.high).toBeGreaterThan(-0.00002);
    expect(line.slopeSd).toBeLessThan(leastSquaresLine(t, y)!.slopeSd / 2);
  });
  test("one x has no slope", () => {
    expect(theilSen([1, 1, 1], [1, 2, 3])).toBeNull();
    expect(robustLine([1, 1, 1, 1], [1, 2, 3, 4])).toBeNull();
  });
});
