import { expect, test } from "vitest";
import { autocorrelation, varianceInflation } from "../../../analysis/numerics/autocorrelation";
import { fourierPlan } from "../../../analysis/numerics/fast-fourier";
import { leastSquaresLine } from "../../../analysis/numerics/regression";
import { goldenCase, goldenInputs } from "../../builders/reference";

const { y } = goldenInputs.loop_sine;

test("bins of a transform of 256 values agree with NumPy", () => {
  const { output, within } = goldenCase<{ re: number[]; im: number[] }>("fft-256");
  const bins = fourierPlan(256).forwardReal(Float64Array.from(y.slice(0, 256)));
  for (let k = 0; k <= 128; k++) {
    expect(within(bins[2 * k], output.re[k])).toBe(true);
    expect(within(bins[2 * k + 1], output.im[k])).toBe(true);
  }
});
test("autocorrelation of a detrended tone agrees with NumPy", () => {
  const { output, within } = goldenCase<{ r: number[] }>("acf");
  const line = leastSquaresLine(
    y.map((_, i) => i),
    y,
  )!;
  const r = autocorrelation(
    y.map((v, i) => v - line.intercept - line.slope * i),
    120,
  );
  for (const [k, want] of output.r.entries()) expect(within(r[k], want)).toBe(true);
});
test("independent values need no widening, dependent ones (1 + r) / (1 - r)", () => {
  expect(varianceInflation(-0.2, 100)).toBe(1);
  expect(varianceInflation(0.5, 1e9)).toBeCloseTo(3, 6);
});
