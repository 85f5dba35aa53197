import type { CauseTable } from "./cause-table";

/**
 * More is drawn than the pump can give at set pressure: full speed, flow at or over its rating, pressure below the band.
 */
export const undersizedPumpOrOverdraw: CauseTable = {
  id: "undersized-pump-or-overdraw",
  prior: 1,
  weights: {
    overdraw: { none: -2, "below-rating": 0.3, "at-rating": 2.4, "rating-unknown": 1.6 },
    "held-pressure": { below: 0.7, above: -0.7 },
    shutoff: { full: 0.2, weak: -1.5 },
    droop: { steep: 0.5 },
    prime: { lost: -0.5 },
    dips: { "deep-and-slow": 0.3 },
  },
};
