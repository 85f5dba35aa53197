import type { CauseTable } from "./cause-table";

/**
 * At an elbow or a pump's outlet the tapping sees eddies, whose pressure goes with the square of the speed of the water.
 */
export const sensorInTurbulence: CauseTable = {
  id: "sensor-in-turbulence",
  prior: 1,
  weights: {
    "noise-with-flow": { steady: -1.3, grows: 2.4 },
    noise: { quiet: -0.3, noisy: 1.4 },
    oscillation: { small: 0.2, large: -0.4 },
    roughness: { alike: -0.1, rougher: 1.5 },
  },
};
