import type { CauseTable } from "./cause-table";

/**
 * Water is lost with the pump off: out of the system, or back through the check valve. The pump starts although nobody draws.
 */
export const leakOrCheckValve: CauseTable = {
  id: "leak-or-check-valve",
  prior: 1,
  weights: {
    // a loss that comes and goes is a draw or gas that cools
    "leak-down": { none: -2.7, passing: -0.8, present: 3 },
    "starts-without-draw": { rare: -1.7, often: 2.6 },
    "night-flow": { none: -0.3, present: 0.6 },
    starts: { many: 0.7, "very-many": 0.2 },
    dips: { shallow: 0.2, deep: -0.6, "deep-and-slow": -0.4 },
    "quiet-times": { some: -0.6, none: 2.4 },
    "start-rhythm": { irregular: -0.4, regular: 1.2 },
  },
};
