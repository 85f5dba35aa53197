import type { CauseTable } from "./cause-table";

/**
 * Between sensor and tank lies a pipe: its inertance and friction let the sensor see the pump before the tank has moved. The loop works
 * on a stiff plant with a swing of its own, T = 2 pi sqrt(I C).
 */
export const sensorFarFromTank: CauseTable = {
  id: "sensor-far-from-tank",
  prior: 1,
  weights: {
    "sensor-distance": { near: -2, beyond: 1.5, far: 2.5 },
    oscillation: { none: -0.5, small: 1.2, large: 1.7 },
    "oscillation-driver": { loop: 0.3, demand: -1 },
    "surge-period": { agrees: 1 },
    "oscillation-period": { slow: -0.5 },
    // friction of the pipe between them
    droop: { steep: 1 },
    drift: { over: 0.5 },
    overshoot: { large: 0.3 },
    "noise-with-flow": { grows: 1 },
    "pump-kind": { switch: -1.5 },
  },
};
