import type { CauseTable } from "./cause-table";

/**
 * Water is lost with the pump off: out of the system, or back through the check valve. The pump starts although nobody draws.
 */
export const leakOrCheckValve: CauseTable = {
  id: "leak-or-check-valve",
  prior: 1,
  weights: {
    "leak-down": { none: -1.5, present: 2.5 },
    "starts-without-draw": { rare: -0.7, often: 2.5 },
    "night-flow": { none: -0.3, present: 0.7 },
    starts: { many: 0.7, "very-many": 0.7 },
    dips: { deep: -0.5 },
    "quiet-times": { some: -0.5, none: 2 },
    "start-rhythm": { regular: 1.3 },
  },
};
