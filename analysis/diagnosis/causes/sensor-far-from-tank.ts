import type { CauseTable } from "./cause-table";

/**
 * Between sensor and tank lies a pipe: its inertance and friction let the sensor see the pump before the tank has moved. The loop works
 * on a stiff plant with a swing of its own, T = 2 pi sqrt(I C).
 */
export const sensorFarFromTank: CauseTable = {
  id: "sensor-far-from-tank",
  prior: 1,
  weights: {
    "sensor-distance": { near: -2, beyond: 1, far: 2.2 },
    oscillation: { none: -1, small: 0.3, large: 1 },
    "oscillation-driver": { loop: 0.3, demand: -1 },
    "surge-period": { agrees: 0.7, differs: -0.3 },
    "oscillation-period": { slow: -0.5 },
    // friction of the pipe between them
    droop: { steep: 0.5 },
    drift: { over: 0.3 },
    "gas-constant": { collapsed: -0.5, "as-expected": 0.2 },
    "noise-with-flow": { grows: -0.3 },
  },
};
