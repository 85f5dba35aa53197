import { defineConfig } from "vitest/config";

/** Zone and locale are fixed here, so that a test means the same on every machine; tests/house tries two other zones. */
process.env.TZ = "UTC";

export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
    setupFiles: ["tests/fixed-chance.ts"],
    // a busy machine may take a minute for what a quick one does at once; no test waits for a time, so that none is slower for it
    testTimeout: 240_000,
    hookTimeout: 240_000,
    expect: { poll: { timeout: 60_000 } },
    passWithNoTests: true,
  },
});
