import type { CauseTable } from "./cause-table";

/**
 * More is drawn than the pump can give at set pressure: full speed, flow at or over its rating, pressure below the band.
 */
export const undersizedPumpOrOverdraw: CauseTable = {
  id: "undersized-pump-or-overdraw",
  prior: 1,
  weights: {
    overdraw: { none: -2, present: 3.1 },
    "held-pressure": { "at-set": -1.1, below: 3.2, above: -2 },
    droop: { little: -0.3, steep: 2 },
    dips: { shallow: -1, deep: -0.4, "deep-and-slow": 2 },
    overshoot: { little: -1.1, some: 0.1, large: 2.6 },
    "flow-when-short": { none: -2, some: -2.2, all: 2.2 },
    // an error that no speed can mend stays
    "loop-pace": { prompt: -1.1, slow: 1.9 },
    "answer-to-draw": { "keeps-up": -3.1, late: -1.7, "at-its-end": 3 },
    // outlets give as the root of pressure: what takes all of it would have to be several times the pump
    "sunk-pressure": { held: -2.3, low: 2.7, gone: 1.4, nought: -2 },
    // more is drawn than the pump has, until it is drawn no more
    "low-times": { brief: -2.5, minutes: 0.1, long: 3.2, mostly: 0.1 },
    "rise-pace": { prompt: -0.8, late: 0.2, slow: 1.4 },
  },
};
