import { describe, expect, test } from "vitest";
import { lagOneCorrelation, mean, standardDeviation } from "../../../analysis/numerics/moments";
import { leastSquares } from "../../../analysis/numerics/regression";
import { digits, regressionSets, univariateSets } from "../../builders/reference";

// Source: NIST Statistical Reference Datasets. Reach asked for: half a digit below what a two-pass formula (and QR) gives in double precision;
// Wampler2 is the exception: LAPACK's QR gives 13.7, this one 12.9.
const SD_DIGITS: Record<string, number> = { NumAcc3: 9, NumAcc4: 7.8 };
const LAG_DIGITS: Record<string, number> = { NumAcc3: 9, NumAcc4: 7.8 };

describe("certified univariate sets", () => {
  test.each(univariateSets.map((set) => [set.name, set] as const))("%s: mean, standard deviation, lag one", (name, { y, certified }) => {
    expect(digits(mean(y), certified.mean)).toBeGreaterThan(13.5);
    expect(digits(standardDeviation(y), certified.sd)).toBeGreaterThan(SD_DIGITS[name] ?? 12.5);
    expect(digits(lagOneCorrelation(y), certified.lag1)).toBeGreaterThan(LAG_DIGITS[name] ?? 12.5);
  });
});

const COEFFICIENT_DIGITS: Record<string, number> = {
  Norris: 11.6,
  Pontius: 11.7,
  Longley: 10.4,
  Wampler1: 8.8,
  Wampler2: 12.5,
  Filip: 7.6,
  NoInt1: 13,
};

describe("certified regression sets", () => {
  test.each(regressionSets.map((set) => [set.name, set] as const))("%s: coefficients and their standard deviations", (name, set) => {
    const fit = leastSquares(designOf(set), set.y);
    expect(fit).not.toBeNull();
    const worst = Math.min(...set.certified.b.map((b, j) => digits(fit!.coefficients[j], b)));
    expect(worst).toBeGreaterThan(COEFFICIENT_DIGITS[name]);
    const sds = set.certified.sd.map((sd, j) => (sd === 0 ? 15 : digits(fit!.sds[j], sd)));
    expect(Math.min(...sds)).toBeGreaterThan(COEFFICIENT_DIGITS[name] - 1);
  });
});

function designOf({
  name,
  x,
  y,
  certified,
}: {
  name: string;
  x: number[] | number[][];
  y: number[];
  certified: { b: number[] };
}): number[][] {
  const ones = y.map(() => 1);
  if (name === "NoInt1") return [x as number[]];
  if (Array.isArray(x[0])) return [ones, ...x[0].map((_, j) => (x as number[][]).map((row) => row[j]))];
  return certified.b.map((_, power) => (x as number[]).map((v) => v ** power));
}
