import type { CauseTable } from "./cause-table";

/**
 * Range or kind of signal set wrong: the recorded pressure stands at a fixed ratio to what is held, or sits at an end of the range.
 */
export const sensorScalingWrong: CauseTable = {
  id: "sensor-scaling-wrong",
  prior: 1,
  weights: {
    "sensor-scale": { "as-expected": -1.8, off: 3.1 },
    "held-pressure": { "at-set": -1.7, below: 2.1, above: 2.4 },
    "sensor-pinned": { yes: 0.7 },
    // a pump at its end is another story
    overdraw: { present: -0.7 },
    overshoot: { little: -0.1, some: -0.7, large: 0.9 },
    runs: { "some-short": -0.3, "never-stops": -0.2 },
    // what is held elsewhere than at the set pressure of the facts looks like an answer that never comes
    "answer-to-draw": { "keeps-up": -0.4, late: 0.8, "at-its-end": 1.2 },
    // a reading that is low drives the pump to its end without a draw
    "flow-when-short": { none: 0.6, all: -0.3 },
    "sunk-pressure": { held: -0.5, low: 2.1, gone: -0.4 },
    "usual-pressure": { below: 1.3, "in-band": -0.1, above: 2.1 },
    "low-times": { brief: -0.1, mostly: 1.3 },
  },
};
