import type { CauseTable } from "./cause-table";

/**
 * A choked port or line makes the sensor late and smooth: it lags flow steps, and a loop that trusts it swings slowly.
 */
export const sensorPortPlugged: CauseTable = {
  id: "sensor-port-plugged",
  prior: 1,
  weights: {
    "sensor-lag": { prompt: -1.5, slow: 3 },
    noise: { noisy: -0.5 },
    "noise-with-flow": { grows: -0.5 },
    // a late sensor sets a loop swinging, slowly
    oscillation: { small: 0.5, large: 1 },
    "oscillation-period": { fast: -0.5, middling: 0.5, slow: 0.3 },
    dips: { "deep-and-slow": 0.5 },
    "sensor-stuck": { stuck: 0.5 },
    overshoot: { large: 1 },
    "gas-constant": { raised: 1 },
  },
};
