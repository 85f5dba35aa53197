import type { CauseTable } from "./cause-table";

/**
 * Little head and little flow at full speed: three phases in the wrong order, worn impeller, choked suction.
 */
export const pumpTurningBackwardsOrWeak: CauseTable = {
  id: "pump-turning-backwards-or-weak",
  prior: 1,
  weights: {
    shutoff: { full: -1.5, weak: 2.5 },
    overdraw: { none: -0.5, present: 2 },
    "held-pressure": { "at-set": -0.7, below: 2, above: -1 },
    droop: { steep: 0.7 },
    dips: { shallow: -0.5, "deep-and-slow": 1.3 },
    overshoot: { large: -1.5 },
    "overdraw-flow": { "below-rating": 1, "at-rating": -1.5 },
    runs: { long: -1, "some-short": -0.7, "mostly-short": -0.7, "never-stops": 1.2 },
    "sensor-scale": { off: 1.2 },
  },
};
