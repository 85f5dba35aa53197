import type { CauseTable } from "./cause-table";

/**
 * Range or kind of signal set wrong: the recorded pressure stands at a fixed ratio to what is held, or sits at an end of the range.
 */
export const sensorScalingWrong: CauseTable = {
  id: "sensor-scaling-wrong",
  prior: 1,
  weights: {
    "sensor-scale": { "as-expected": -1.5, off: 3 },
    "held-pressure": { "at-set": -1, below: 1.5, above: 2 },
    "sensor-pinned": { yes: 1.5 },
    // a pump at its end is another story
    overdraw: { present: -0.7 },
    overshoot: { large: 0.7 },
    runs: { "never-stops": -0.5 },
  },
};
