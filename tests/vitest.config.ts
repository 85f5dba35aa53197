import { defineConfig } from "vitest/config";

/** Zone and locale are fixed here, so that a test means the same on every machine; tests/house tries two other zones. */
process.env.TZ = "UTC";

export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
    setupFiles: ["tests/fixed-chance.ts"],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // a busy machine may take seconds for what a page does at once
    expect: { poll: { timeout: 15_000 } },
    passWithNoTests: true,
  },
});
