import type { CauseTable } from "./cause-table";

/**
 * Gain too high for the delay in the loop: pressure and speed swing together, period near four delays, with a sound tank and a near sensor.
 */
export const loopTooAggressive: CauseTable = {
  id: "loop-too-aggressive",
  prior: 1,
  weights: {
    oscillation: { none: -1.5, small: 1.5, large: 2.5 },
    "oscillation-driver": { loop: 0.7, demand: -1.5 },
    "oscillation-period": { fast: 0.3, slow: -1 },
    "sensor-distance": { far: -0.5 },
    "gas-constant": { collapsed: -0.5, reduced: -0.3 },
    dips: { deep: 0.5 },
    overshoot: { large: 1.2 },
    "noise-with-flow": { grows: 1.5 },
    "pump-kind": { switch: -4 },
  },
};
