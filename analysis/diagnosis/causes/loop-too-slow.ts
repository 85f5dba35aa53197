import type { CauseTable } from "./cause-table";

/**
 * Gain too low: a draw pulls pressure down and the pump answers late; an integrator turned down too far swings slowly
 * (w0 = sqrt(k' Kc / Ti), damping falls with the gain).
 */
export const loopTooSlow: CauseTable = {
  id: "loop-too-slow",
  prior: 1,
  weights: {
    dips: { shallow: -1, deep: 0.3, "deep-and-slow": 1.7 },
    drift: { over: 0.7 },
    "oscillation-period": { fast: -1, middling: 0.3, slow: 1.2 },
    "oscillation-driver": { demand: -0.5 },
    oscillation: { large: 0.1 },
    overdraw: { "at-rating": -0.7, "below-rating": -0.7, "rating-unknown": -0.7 },
    "sensor-lag": { slow: -0.3 },
    "gas-constant": { collapsed: -0.5 },
  },
};
