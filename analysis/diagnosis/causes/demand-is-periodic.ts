import type { CauseTable } from "./cause-table";

/**
 * Something draws in a rhythm: flow leads and pressure moves against it. The pump only follows.
 */
export const demandIsPeriodic: CauseTable = {
  id: "demand-is-periodic",
  prior: 1,
  weights: {
    "oscillation-driver": { loop: -1.9, demand: 1.7, unclear: -0.2 },
    "draw-rhythm": { irregular: -1.4, regular: 3.1 },
    oscillation: { none: -1.7, small: 1.9, large: 2.5 },
    "swing-in-runs": { within: 0.2, "from-stop-to-stop": -0.8 },
    "oscillation-period": { fast: -1.2, middling: 0.2, slow: 0.7 },
    "loop-pace": { prompt: 0.3, slow: -0.4 },
    "start-rhythm": { irregular: -0.4, regular: 0.8 },
  },
};
