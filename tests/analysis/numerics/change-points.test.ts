import { describe, expect, test } from "vitest";
import { changePoints, noiseVariance } from "../../../analysis/numerics/change-points";
import { hampelOutliers } from "../../../analysis/numerics/hampel";
import { seededRandom } from "../../../analysis/numerics/random";
import { goldenCase, goldenInputs } from "../../builders/reference";

describe("change points", () => {
  const nile = goldenCase<{ s2: number; partition: Record<string, number[]> }>("nile");
  const flow = Float64Array.from(goldenInputs.nile.y);
  test("the Nile shifts once, after 1898 (Cobb 1978)", () => {
    expect(nile.within(noiseVariance(flow), nile.output.s2)).toBe(true);
    for (const [id, penalty] of [
      ["2log n", 2 * Math.log(100)],
      ["3log n", 3 * Math.log(100)],
      ["10", 10],
    ] as const) {
      expect(changePoints(flow, noiseVariance(flow), penalty)).toEqual(nile.output.partition[id]);
    }
  });
  test("a long record without a shift has none", () => {
    const chance = seededRandom(3);
    const calm = Float64Array.from({ length: 60_000 }, () => chance.normal());
    expect(changePoints(calm, 1, 3 * Math.log(60_000))).toEqual([]);
  });
  test("every step of a staircase is found on its sample", () => {
    const chance = seededRandom(4);
    const stairs = Float64Array.from({ length: 500 }, (_, i) => Math.floor(i / 100) * 8 + chance.normal());
    expect(changePoints(stairs, noiseVariance(stairs), 3 * Math.log(500))).toEqual([100, 200, 300, 400]);
  });
});

test("outliers of a neighbourhood agree with NumPy", () => {
  expect(hampelOutliers(goldenInputs.drift.y, 5, 3)).toEqual(goldenCase<{ index: number[] }>("hampel").output.index);
});
