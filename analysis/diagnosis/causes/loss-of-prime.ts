import type { CauseTable } from "./cause-table";

/**
 * Air in the suction: pressure and flow collapse while the pump runs on.
 */
export const lossOfPrime: CauseTable = {
  id: "loss-of-prime",
  prior: 1,
  weights: {
    prime: { held: -2, lost: 3 },
    "held-pressure": { below: 1.5 },
    dips: { "deep-and-slow": 1.2 },
    overdraw: { present: 1 },
    overshoot: { large: 0.7 },
    shutoff: { weak: 1.5 },
    "overdraw-flow": { "below-rating": 0.5 },
  },
};
