import type { CauseTable } from "./cause-table";

/**
 * Something draws in a rhythm: flow leads and pressure moves against it. The pump only follows.
 */
export const demandIsPeriodic: CauseTable = {
  id: "demand-is-periodic",
  prior: 1,
  weights: {
    "oscillation-driver": { loop: -1.5, demand: 1.5 },
    "draw-rhythm": { irregular: -0.7, regular: 2.5 },
    oscillation: { none: -1, small: 1.5, large: 2.3 },
    "oscillation-period": { fast: -0.5, middling: 0.3, slow: 0.5 },
    "start-rhythm": { regular: 1 },
  },
};
