import type { CauseTable } from "./cause-table";

/**
 * Gain too high for the delay in the loop: pressure and speed swing together, period near four delays, with a sound tank and a near sensor.
 */
export const loopTooAggressive: CauseTable = {
  id: "loop-too-aggressive",
  prior: 1,
  weights: {
    oscillation: { none: -2, small: 0.7, large: 1.5 },
    "oscillation-driver": { loop: 0.7, demand: -1.5 },
    "oscillation-period": { fast: 0.3, slow: -1 },
    "surge-period": { agrees: -0.2, differs: 0.1 },
    "sensor-distance": { near: 0.2, beyond: -0.5, far: -1 },
    "gas-constant": { collapsed: -0.7, reduced: -0.5, "as-expected": 0.2 },
    "tank-by-facts": { tiny: -0.5 },
    dips: { "deep-and-slow": -0.5 },
    "draw-rhythm": { regular: -0.3 },
  },
};
