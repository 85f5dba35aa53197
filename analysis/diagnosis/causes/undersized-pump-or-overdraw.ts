import type { CauseTable } from "./cause-table";

/**
 * More is drawn than the pump can give at set pressure: full speed, flow at or over its rating, pressure below the band.
 */
export const undersizedPumpOrOverdraw: CauseTable = {
  id: "undersized-pump-or-overdraw",
  prior: 1,
  weights: {
    overdraw: { none: -1.5, present: 3 },
    "held-pressure": { below: 1.7, above: -0.7 },
    droop: { steep: 1 },
    shutoff: { weak: -1.5 },
    dips: { shallow: -0.7, "deep-and-slow": 1.5 },
    overshoot: { large: 0.7 },
    "overdraw-flow": { "below-rating": -1.5, "at-rating": 0.7 },
  },
};
