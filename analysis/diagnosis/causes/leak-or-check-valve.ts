import type { CauseTable } from "./cause-table";

/**
 * Water is lost with the pump off: out of the system, or back through the check valve. The pump starts although nobody draws.
 */
export const leakOrCheckValve: CauseTable = {
  id: "leak-or-check-valve",
  prior: 1,
  weights: {
    "leak-down": { none: -2, present: 2 },
    "starts-without-draw": { rare: -1, often: 1.7 },
    "night-flow": { none: -0.3, present: 0.5 },
    starts: { many: 0.3, "very-many": 0.3 },
    "gas-constant": { collapsed: -0.3 },
    "empties-at": { "far-below": -0.3 },
  },
};
