import type { CauseTable } from "./cause-table";

/**
 * A choked port or line makes the sensor late and smooth: it lags flow steps, and a loop that trusts it swings slowly.
 */
export const sensorPortPlugged: CauseTable = {
  id: "sensor-port-plugged",
  prior: 1,
  weights: {
    "sensor-lag": { prompt: -2.9, slow: 3.1 },
    "noise-with-flow": { grows: -0.6 },
    // a late sensor sets a loop swinging, slowly
    oscillation: { small: 0.3 },
    "oscillation-period": { fast: -0.4, middling: 0.4 },
    dips: { "deep-and-slow": 0.2 },
    "sensor-stuck": { stuck: 0.2, frozen: -0.4 },
    overshoot: { little: -0.3, large: 1.1 },
    "gas-constant": { collapsed: -0.4, reduced: -0.2, "as-expected": -0.2, raised: 1.2 },
  },
};
