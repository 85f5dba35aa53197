import { defineConfig } from "vitest/config";

process.env.TZ = "UTC";

/**
 * The tests that stand for analysis when its lines are changed on purpose. Left out: what asks whole files to give the same answer
 * twice, since a changed line gives the same wrong answer twice; and the searches over the model, which take seconds each.
 */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: ["tests/analysis/**/*.test.ts", "tests/shared/**/*.test.ts"],
    exclude: [
      "tests/analysis/same-answer.test.ts",
      "tests/analysis/model/what-if.test.ts",
      "tests/analysis/import/clock/zone-offsets.test.ts",
    ],
    setupFiles: ["tests/fixed-chance.ts"],
    testTimeout: 60_000,
  },
});
