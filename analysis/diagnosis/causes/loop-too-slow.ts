import type { CauseTable } from "./cause-table";

/**
 * Gain too low: a draw pulls pressure down and the pump answers late; an integrator turned down too far swings slowly
 * (w0 = sqrt(k' Kc / Ti), damping falls with the gain).
 */
export const loopTooSlow: CauseTable = {
  id: "loop-too-slow",
  prior: 1,
  weights: {
    dips: { shallow: -0.5, deep: 0.3, "deep-and-slow": 1.8 },
    drift: { over: 1 },
    oscillation: { small: 0.3, large: 0.3 },
    "oscillation-period": { fast: -1, middling: 0.3, slow: 1.5 },
    "oscillation-driver": { demand: -0.5 },
    "held-pressure": { below: 0.5 },
    // a pump already at full speed cannot be late
    overdraw: { present: -0.7 },
    "pump-kind": { switch: -4 },
  },
};
