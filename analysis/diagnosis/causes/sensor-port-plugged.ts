import type { CauseTable } from "./cause-table";

/**
 * A choked port or line makes the sensor late and smooth: it lags flow steps, and a loop that trusts it swings slowly.
 */
export const sensorPortPlugged: CauseTable = {
  id: "sensor-port-plugged",
  prior: 1,
  weights: {
    "sensor-lag": { prompt: -2, slow: 2.2 },
    noise: { noisy: -0.5 },
    "noise-with-flow": { grows: -0.5 },
    oscillation: { large: 0.3 },
    "oscillation-period": { fast: -0.5, middling: 0.3, slow: 0.3 },
    "sensor-stuck": { stuck: 0.3, frozen: -0.5 },
  },
};
