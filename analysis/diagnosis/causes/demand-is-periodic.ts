import type { CauseTable } from "./cause-table";

/**
 * Something draws in a rhythm: flow leads and pressure moves against it. The pump only follows.
 */
export const demandIsPeriodic: CauseTable = {
  id: "demand-is-periodic",
  prior: 1,
  weights: {
    "oscillation-driver": { loop: -1.5, demand: 2.2 },
    "draw-rhythm": { irregular: -1, regular: 1.7 },
    oscillation: { none: -0.5, small: 0.5, large: 0.7 },
    "oscillation-period": { fast: -0.5, middling: 0.3, slow: 0.3 },
    "surge-period": { agrees: -0.3 },
  },
};
