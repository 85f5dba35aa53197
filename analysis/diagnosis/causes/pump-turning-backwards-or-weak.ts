import type { CauseTable } from "./cause-table";

/**
 * Little head and little flow at full speed: three phases in the wrong order, worn impeller, choked suction.
 */
export const pumpTurningBackwardsOrWeak: CauseTable = {
  id: "pump-turning-backwards-or-weak",
  prior: 1,
  weights: {
    "at-the-top": { turns: -1.2, "runs-on": 2.8 },
    shutoff: { full: -1.7, weak: 3 },
    overdraw: { none: -0.4, present: 2.2 },
    "held-pressure": { "at-set": -2.1, below: 3.2, above: -2 },
    droop: { little: -0.2, steep: 1.7 },
    dips: { shallow: -0.3, deep: -0.4, "deep-and-slow": 1.5 },
    overshoot: { little: 0.8, some: -1.5, large: -1.5 },
    "flow-when-short": { none: 1, some: 0.5, all: -2 },
    // an error that no speed can mend stays
    "loop-pace": { prompt: -0.9, slow: 1.5 },
    runs: { long: -1.8, "some-short": -2, "mostly-short": -1.7, "never-stops": 3.2 },
    "sensor-scale": { "as-expected": -0.2, off: 1.4 },
    "answer-to-draw": { "keeps-up": -2, late: -1, "at-its-end": 2.4 },
    "sunk-pressure": { held: -1.4, low: 2.4, gone: 0.6, nought: -0.5 },
    "low-times": { brief: -1.4, minutes: -0.2, long: 2, mostly: 1.4 },
    "usual-pressure": { below: 1.1, "in-band": -0.1, above: -2 },
    "rise-pace": { sudden: -1.5, prompt: -2, late: 0.5, slow: 3 },
    "start-gaps": { "some-close": -0.5, close: -1.5 },
  },
};
