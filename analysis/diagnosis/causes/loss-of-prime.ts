import type { CauseTable } from "./cause-table";

/**
 * Air in the suction: pressure and flow collapse while the pump runs on.
 */
export const lossOfPrime: CauseTable = {
  id: "loss-of-prime",
  prior: 1,
  weights: {
    prime: { held: -2.6, lost: 3.1 },
    "held-pressure": { "at-set": -0.6, below: 2.8, above: -0.5 },
    dips: { shallow: -0.4, deep: -0.4, "deep-and-slow": 1.9 },
    overdraw: { present: 1 },
    overshoot: { little: -0.7, some: 0.1, large: 2.3 },
    shutoff: { full: -0.3, weak: 2.1 },
    "flow-when-short": { none: 2.1, some: -0.5, all: -1.6 },
    "loop-pace": { slow: 1.7 },
    // a pump without water gives no pressure at all; one at its limit still gives what its curve has left
    "sunk-pressure": { held: -1.8, low: 1, gone: 2.4, nought: 3.1 },
    // a drive whose pump gives nothing is soon at full speed: speed to spare is no sign of it
    "answer-to-draw": { "keeps-up": -1.4, "at-its-end": 2.8 },
    // what does not pump does not bring the pressure back
    "low-times": { brief: -2.8, minutes: 0.6, long: 3, mostly: -0.7 },
    "rise-pace": { late: 0.1, slow: 1.4 },
  },
};
