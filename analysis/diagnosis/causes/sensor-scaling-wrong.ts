import type { CauseTable } from "./cause-table";

/**
 * Range or kind of signal set wrong: the recorded pressure stands at a fixed ratio to what is held, or sits at an end of the range.
 */
export const sensorScalingWrong: CauseTable = {
  id: "sensor-scaling-wrong",
  prior: 1,
  weights: {
    // nor is a reading that drifts off of the right scale for long
    "levels-walk": { stay: -0.1, walk: 3 },
    "at-the-top": { "runs-on": -1.2 }, // a wrong scale still shows the switch turn
    "sensor-scale": { "as-expected": -1.2, off: 2.5 },
    "held-pressure": { "at-set": -1.5, below: 2.2, above: 2.2 },
    "sensor-pinned": { yes: 0.7 },
    // a pump at its end is another story
    overdraw: { present: -0.7 },
    overshoot: { little: -0.1, some: -1.4, large: 1.6 },
    runs: { "some-short": -0.5, "never-stops": -0.1 },
    // what is held elsewhere than at the set pressure of the facts looks like an answer that never comes
    "answer-to-draw": { "keeps-up": -0.7, late: 0.8, "at-its-end": 1.5 },
    // a reading that is low drives the pump to its end without a draw
    "flow-when-short": { none: 0.6, all: -0.3 },
    "sunk-pressure": { held: -0.3, low: 2.1, gone: -0.6, nought: -1.5 },
    "usual-pressure": { below: 1.6, "in-band": -0.5, above: 2.2 },
    "low-times": { brief: -0.1, mostly: 1.9 },
  },
};
