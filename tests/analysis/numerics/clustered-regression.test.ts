import { expect, test } from "vitest";
import { clusteredRegression } from "../../../analysis/numerics/clustered-regression";
import { seededRandom } from "../../../analysis/numerics/random";

/** Forty clusters of thirty samples; what a cluster has in common is as large as the noise. True line: 2 + 3 x. */
function drawing(seed: number) {
  const random = seededRandom(seed);
  const [x, y, cluster]: number[][] = [[], [], []];
  for (let g = 0; g < 40; g++) {
    const common = random.normal();
    const level = random.normal();
    for (let i = 0; i < 30; i++) {
      const at = level + 0.3 * random.normal();
      x.push(at);
      y.push(2 + 3 * at + common + random.normal());
      cluster.push(g);
    }
  }
  return { columns: [Float64Array.from(x), new Float64Array(x.length).fill(1)], y: Float64Array.from(y), cluster };
}

test("intervals of a clustered regression hold the truth about 95 times of 100", () => {
  let held = 0;
  const seeds = 300;
  for (let seed = 1; seed <= seeds; seed++) {
    const { columns, y, cluster } = drawing(seed);
    const fit = clusteredRegression(columns, y, cluster)!;
    if (Math.abs(fit.coefficients[0] - 3) <= fit.reach * Math.sqrt(fit.covariance[0][0])) held++;
  }
  // Binomial with 300 draws: 0.90 to 0.98 is nearly four standard deviations around 0.95.
  expect(held / seeds).toBeGreaterThan(0.9);
  expect(held / seeds).toBeLessThan(0.985);
});

test("no more clusters than columns: no answer", () => {
  const { columns, y } = drawing(1);
  expect(clusteredRegression(columns, y, new Float64Array(y.length))).toBeNull();
});
