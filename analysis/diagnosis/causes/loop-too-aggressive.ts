import type { CauseTable } from "./cause-table";

/**
 * Gain too high for the delay in the loop: pressure and speed swing together, period near four delays, with a sound tank and a near sensor.
 */
export const loopTooAggressive: CauseTable = {
  id: "loop-too-aggressive",
  prior: 1,
  weights: {
    oscillation: { none: -1.8, small: 2.2, large: 2.4 },
    "oscillation-driver": { loop: 0.3, demand: -2.2 },
    "oscillation-period": { fast: 0.6, slow: -1.8 },
    "sensor-distance": { far: -1 },
    // the loop gain goes with 1/C: a tank that lost its give explains the swing by itself
    "gas-constant": { collapsed: -1.3, reduced: -1.3 },
    dips: { "deep-and-slow": -0.4 },
    overshoot: { little: -0.4, large: 1.3 },
    "noise-with-flow": { steady: -0.4, grows: 2 },
    "loop-pace": { prompt: 0.7, slow: -0.9 },
    bends: { rounded: -0.5 },
    "pump-kind": { switch: -4 },
  },
};
