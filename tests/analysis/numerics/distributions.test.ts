import { expect, test } from "vitest";
import { chiSquareQuantile, fQuantile, normalQuantile, poissonInterval, studentQuantile } from "../../../analysis/numerics/distributions";
import { logGamma } from "../../../analysis/numerics/special-functions";
import { goldenCase } from "../../builders/reference";

type Pairs = [number, number][];
type Triples = [number, number, number][];
const { output, within } = goldenCase<{
  norm_ppf: Pairs;
  t_ppf_975: Pairs;
  chi2_ppf: Triples;
  f_ppf_95: Triples;
  poisson_exact_95: Triples;
  lgamma: Pairs;
}>("quantiles");

test("quantiles of normal, Student, chi-square and F agree with SciPy", () => {
  for (const [p, want] of output.norm_ppf) expect(within(normalQuantile(p), want)).toBe(true);
  for (const [df, want] of output.t_ppf_975) expect(within(studentQuantile(0.975, df), want)).toBe(true);
  for (const [p, df, want] of output.chi2_ppf) expect(within(chiSquareQuantile(p, df), want)).toBe(true);
  for (const [a, b, want] of output.f_ppf_95) expect(within(fQuantile(0.95, a, b), want)).toBe(true);
});
test("the exact interval of a count agrees with SciPy", () => {
  for (const [count, low, high] of output.poisson_exact_95) {
    expect(within(poissonInterval(count).low, low)).toBe(true);
    expect(within(poissonInterval(count).high, high)).toBe(true);
  }
});
test("the logarithm of gamma agrees with SciPy", () => {
  for (const [x, want] of output.lgamma) expect(within(logGamma(x), want)).toBe(true);
});
test("a count below zero is a caller's mistake", () => {
  expect(() => poissonInterval(-1)).toThrow(RangeError);
});
