import type { CauseTable } from "./cause-table";

/**
 * More is drawn than the pump can give at set pressure: full speed, flow at or over its rating, pressure below the band.
 */
export const undersizedPumpOrOverdraw: CauseTable = {
  id: "undersized-pump-or-overdraw",
  prior: 1,
  weights: {
    overdraw: { none: -2, present: 3.1 },
    "held-pressure": { "at-set": -0.4, below: 2.9, above: -2 },
    droop: { little: -0.3, steep: 2 },
    dips: { shallow: -1, deep: -0.4, "deep-and-slow": 2 },
    overshoot: { little: -1.2, some: 0.2, large: 1.5 },
    "flow-when-short": { none: -2, some: -2.2, all: 2.2 },
    // an error that no speed can mend stays
    "loop-pace": { prompt: -1.1, slow: 1.9 },
    "answer-to-draw": { "keeps-up": -3, late: -1.9, "at-its-end": 3.1 },
    "sunk-pressure": { held: -2.6, low: 2.7, gone: 2.1 },
    // the one cause that draws more than the rating, which the bound takes for granted
    "steepest-fall": { possible: -0.4, strained: 1.4, impossible: 1.7 },
    // more is drawn than the pump has, until it is drawn no more
    "low-times": { brief: -3, minutes: 0.1, long: 3.1, mostly: 0.3 },
    "rise-pace": { prompt: -0.8, late: 0.2, slow: 1.4 },
  },
};
