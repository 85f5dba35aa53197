import type { CauseTable } from "./cause-table";

/**
 * At an elbow or a pump's outlet the tapping sees eddies, whose pressure goes with the square of the speed of the water.
 */
export const sensorInTurbulence: CauseTable = {
  id: "sensor-in-turbulence",
  prior: 1,
  weights: {
    "noise-with-flow": { steady: -0.9, grows: 2 },
    noise: { quiet: -0.3, noisy: 1.4 },
    oscillation: { small: 0.1, large: -0.6 },
    roughness: { alike: -0.4, rougher: 1.8 },
  },
};
