import type { CauseTable } from "./cause-table";

/**
 * At an elbow or a pump's outlet the tapping sees eddies, whose pressure goes with the square of the speed of the water.
 */
export const sensorInTurbulence: CauseTable = {
  id: "sensor-in-turbulence",
  prior: 1,
  weights: {
    "noise-with-flow": { steady: -1.5, grows: 3 },
    noise: { noisy: 2 },
    oscillation: { small: 0.3 },
  },
};
