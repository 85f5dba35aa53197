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
    overshoot: { little: -0.4, large: 1.2 },
    runs: { "some-short": -0.3, "never-stops": -0.2 },
    // what is held elsewhere than at the set pressure of the facts looks like an answer that never comes
    "answer-to-draw": { "keeps-up": -0.2, late: 1.1, "at-its-end": 0.7 },
    "sunk-pressure": { held: -0.3, low: 1.8, gone: -0.2 },
  },
};
