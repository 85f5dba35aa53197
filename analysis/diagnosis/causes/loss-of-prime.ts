import type { CauseTable } from "./cause-table";

/**
 * Air in the suction: pressure and flow collapse while the pump runs on.
 */
export const lossOfPrime: CauseTable = {
  id: "loss-of-prime",
  prior: 1,
  weights: {
    prime: { held: -2.5, lost: 2.6 },
    overdraw: { "below-rating": 0.3 },
    "held-pressure": { below: 0.3 },
  },
};
