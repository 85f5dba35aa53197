import { defineConfig } from "vitest/config";

process.env.TZ = "UTC";
/** Folders of tests that are asked; the others are asked by `npm test` alone. */
const asked = (process.env.MUTATE_TESTS ?? "tests/analysis,tests/shared").split(",");

/**
 * The tests that stand for analysis when its lines are changed on purpose. Left out: what asks whole files to give the same answer
 * twice, since a changed line gives the same wrong answer twice; and the searches over the model, which take seconds each.
 */
export default defineConfig({
  root: new URL("../..", import.meta.url).pathname,
  test: {
    include: asked.map((folder) => `${folder}/**/*.test.ts`),
    exclude: [
      "tests/analysis/same-answer.test.ts",
      "tests/analysis/model/what-if.test.ts",
      "tests/analysis/import/clock/zone-offsets.test.ts",
    ],
    setupFiles: ["tests/fixed-chance.ts"],
    testTimeout: 60_000,
  },
});
