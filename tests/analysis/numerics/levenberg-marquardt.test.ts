import { describe, expect, test } from "vitest";
import { leastSquaresByMarquardt } from "../../../analysis/numerics/levenberg-marquardt";

// NIST Statistical Reference Datasets, nonlinear regression, Misra1a (Misra 1978, lower difficulty), from memory: y = b1 (1 - exp(-b2 x)),
// certified b1 238.94212918 (sd 2.7070075241), b2 5.5015643181e-4 (sd 7.2668688436e-6), residual sum of squares 0.12455138894.
const X = [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0];
const Y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78];

describe("least squares by Marquardt", () => {
  test.each([
    [500, 0.0001],
    [250, 0.0005],
  ])("reaches the certified values of Misra1a from %d and %d", (b1, b2) => {
    const fit = leastSquaresByMarquardt({
      start: [b1, b2],
      low: [1, 1e-6],
      high: [1e4, 1],
      residuals: ([a, b]) => X.map((x, i) => Y[i] - a * (1 - Math.exp(-b * x))),
    });
    expect(fit.parameters[0] / 238.94212918).toBeCloseTo(1, 6);
    expect(fit.parameters[1] / 5.5015643181e-4).toBeCloseTo(1, 6);
    expect(fit.cost).toBeCloseTo(0.12455138894, 8);
    const variance = fit.cost / (X.length - 2);
    expect(Math.sqrt(fit.covariance![0][0] * variance) / 2.7070075241).toBeCloseTo(1, 3);
    expect(Math.sqrt(fit.covariance![1][1] * variance) / 7.2668688436e-6).toBeCloseTo(1, 3);
  });

  test("stays within its bounds and says so by standing on one", () => {
    const fit = leastSquaresByMarquardt({ start: [1], low: [0], high: [2], residuals: ([x]) => [x - 5] });
    expect(fit.parameters[0]).toBe(2);
    expect(() => leastSquaresByMarquardt({ start: [3], low: [0], high: [2], residuals: ([x]) => [x] })).toThrow(RangeError);
  });

  test("one wild point does not move it when squares are tamed", () => {
    const wild = Y.map((y, i) => (i === 6 ? y + 40 : y));
    const fit = leastSquaresByMarquardt({
      start: [250, 5e-4],
      low: [1, 1e-6],
      high: [1e4, 1],
      huber: 1.345,
      residuals: ([a, b]) => X.map((x, i) => (wild[i] - a * (1 - Math.exp(-b * x))) / 0.1),
    });
    expect(fit.parameters[0] / 238.94).toBeCloseTo(1, 1);
  });

  test("a parameter that nothing depends on has no covariance", () => {
    const fit = leastSquaresByMarquardt({ start: [1, 1], low: [0, 0], high: [9, 9], residuals: ([x]) => [x - 2, x - 2] });
    expect(fit.parameters[0]).toBeCloseTo(2, 6);
    expect(fit.covariance).toBeNull();
  });
});
