import type { CauseTable } from "./cause-table";

/**
 * Air in the suction: pressure and flow collapse while the pump runs on.
 */
export const lossOfPrime: CauseTable = {
  id: "loss-of-prime",
  prior: 1,
  weights: {
    prime: { held: -2.6, lost: 3.1 },
    "held-pressure": { "at-set": -0.4, below: 2.5, above: -0.4 },
    dips: { shallow: -0.4, deep: -0.4, "deep-and-slow": 1.9 },
    overdraw: { present: 1 },
    overshoot: { little: -0.4, large: 1.3 },
    shutoff: { full: -0.3, weak: 2.1 },
    "overdraw-flow": { "below-rating": 0.2, "at-rating": -0.3 },
    // a pump without water gives no pressure at all; one at its limit still gives some
    "sunk-pressure": { held: -2.1, low: 1.1, gone: 3 },
    "answer-to-draw": { "keeps-up": -1.2, late: 1.4, "at-its-end": 2.4 },
  },
};
