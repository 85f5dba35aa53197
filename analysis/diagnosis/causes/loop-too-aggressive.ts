import type { CauseTable } from "./cause-table";

/**
 * Gain too high for the delay in the loop: pressure and speed swing together, period near four delays, with a sound tank and a near sensor.
 */
export const loopTooAggressive: CauseTable = {
  id: "loop-too-aggressive",
  prior: 1,
  weights: {
    oscillation: { none: -1.5, small: 2.2, large: 2.2 },
    "oscillation-driver": { loop: 0.3, demand: -2.2 },
    "swing-in-runs": { within: 0.2, "from-stop-to-stop": -0.8 },
    "oscillation-period": { fast: 0.6, slow: -1.8 },
    "sensor-distance": { far: -1 },
    // the loop gain goes with 1/C: a tank that lost its give explains the swing by itself
    "gas-constant": { collapsed: -2, reduced: -2 },
    dips: { "deep-and-slow": -0.4 },
    overshoot: { little: -2.3, some: 0.3, large: 2.8 },
    "noise-with-flow": { steady: -0.2, grows: 1.8 },
    "loop-pace": { prompt: 0.7, slow: -0.9 },
    bends: { rounded: -0.6 },
    "pump-kind": { switch: -9 }, // there is no drive to be set
    // a swing faster than the sampling looks like scatter, and only in a run
    roughness: { alike: -1, rougher: 2.1 },
    "rise-pace": { sudden: 0.5, late: -1, slow: -1 },
    "start-gaps": { apart: -0.6, "some-close": 0.5, close: 0.8 },
  },
};
