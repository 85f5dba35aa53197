import type { CauseTable } from "./cause-table";

/**
 * Range or kind of signal set wrong: the recorded pressure stands at a fixed ratio to what is held, or sits at an end of the range.
 */
export const sensorScalingWrong: CauseTable = {
  id: "sensor-scaling-wrong",
  prior: 1,
  weights: {
    "sensor-scale": { "as-expected": -1.5, off: 2.5 },
    "held-pressure": { "at-set": -1, below: 0.7, above: 1.2 },
    "sensor-pinned": { yes: 1 },
    // a pump that is at its end is another story
    overdraw: { none: 0.1, "below-rating": -0.7, "at-rating": -1, "rating-unknown": -0.7 },
    "sensor-stuck": { stuck: -0.5, frozen: -0.5 },
  },
};
