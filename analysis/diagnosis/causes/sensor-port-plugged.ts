import type { CauseTable } from "./cause-table";

/**
 * A choked port or line makes the sensor late and smooth: it lags flow steps, and a loop that trusts it swings slowly.
 */
export const sensorPortPlugged: CauseTable = {
  id: "sensor-port-plugged",
  prior: 1,
  weights: {
    "sensor-lag": { prompt: -3, slow: 3.2 },
    "noise-with-flow": { grows: -0.7 },
    // a late sensor sets a loop swinging, slowly
    oscillation: { small: 0.1 },
    "swing-in-runs": { within: 0.2, "from-stop-to-stop": -0.8 },
    "oscillation-period": { fast: -0.4, middling: 0.4 },
    // behind a lag no bend of the reading is sharp
    bends: { sharp: -2, soft: 0.7, rounded: 2.6 },
    "loop-pace": { unhurried: 0.3, slow: -0.2 },
    dips: { "deep-and-slow": 0.2 },
    "sensor-stuck": { stuck: 0.1, frozen: -0.6 },
    overshoot: { little: -0.9, some: 0.1, large: 1.9 },
    "gas-constant": { collapsed: -0.6, reduced: -0.4, "as-expected": -0.5, raised: 1.9 },
    // 0.69 of the lag passes before half of a rise is read; but a soft tank on a small pump, or a ramp of half a minute, rises as slowly
    "rise-pace": { sudden: -2.5, prompt: -1.3, late: 1.4, slow: 0.5 },
  },
};
