import type { CauseTable } from "./cause-table";

/**
 * Between sensor and tank lies a pipe: its inertance and friction let the sensor see the pump before the tank has moved. The loop works
 * on a stiff plant with a swing of its own, T = 2 pi sqrt(I C).
 */
export const sensorFarFromTank: CauseTable = {
  id: "sensor-far-from-tank",
  prior: 1,
  weights: {
    "sensor-distance": { near: -3, beyond: 1.2, far: 3.1 },
    oscillation: { none: -0.8, small: 1.6, large: 1.8 },
    "oscillation-driver": { loop: 0.2, demand: -1.1 },
    "surge-period": { agrees: 1.3, differs: -0.4 },
    "oscillation-period": { fast: 0.3, middling: 0.2, slow: -1.3 },
    // friction of the pipe between them
    droop: { steep: 1.3 },
    drift: { over: 0.9 },
    overshoot: { little: -0.5, some: 0.3, large: 0.9 },
    "noise-with-flow": { steady: -0.1, grows: 1.2 },
    // the pump is seen straight through the pipe, faster than from sample to sample
    roughness: { alike: -1.2, rougher: 2.7 },
    // a switch there is tripped by the surge of each start, again and again
    runs: { long: -0.6, "some-short": 0.6, "mostly-short": 1.2, "never-stops": 0.2 },
    starts: { few: -0.2, many: 0.4, "very-many": 1.2 },
    "rise-pace": { sudden: 1.6, prompt: -0.6, late: -1, slow: -1 },
    "start-gaps": { apart: -0.2, "some-close": 0.6, close: 1 },
  },
};
