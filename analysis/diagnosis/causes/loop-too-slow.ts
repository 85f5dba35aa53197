import type { CauseTable } from "./cause-table";

/**
 * Gain too low: a draw pulls pressure down and the pump answers late; an integrator turned down too far swings slowly
 * (w0 = sqrt(k' Kc / Ti), damping falls with the gain).
 */
export const loopTooSlow: CauseTable = {
  id: "loop-too-slow",
  prior: 1,
  weights: {
    dips: { shallow: -0.2, "deep-and-slow": 1.1 },
    drift: { within: -0.2, over: 1.7 },
    oscillation: { small: 0.4 },
    "oscillation-period": { fast: -1.4, slow: 0.9 },
    "oscillation-driver": { loop: 0.2, demand: -0.2, unclear: -0.3 },
    "held-pressure": { above: -0.6 },
    // a pump already at full speed cannot be late
    overdraw: { present: -1 },
    "pump-kind": { switch: -9 }, // there is no drive to be set
    // error that outlives the draw while the pump has more to give is the loop; at full speed it is not
    "answer-to-draw": { "keeps-up": -1.6, late: 1.9, "at-its-end": -1 },
    "flow-when-short": { none: -1.6, some: 1, all: -0.9 },
    // errors outlast the loop's own time
    "loop-pace": { prompt: -1.6, unhurried: 0.1, slow: 2.9 },
    "rise-pace": { sudden: -1.2, late: 0.3, slow: 0.5 },
    "sunk-pressure": { held: -0.2, low: 2, gone: -1.5, nought: -2 },
    // an integrator far behind ramps down late too: runs are long
    runs: { long: 0.5, "some-short": -2.6, "mostly-short": -2.6, "never-stops": 0.2 },
    "low-times": { brief: -0.1, minutes: 1.4, long: 0.1, mostly: -1.6 },
    // an integrator that is late winds up, and is over when the draw ends
    overshoot: { little: -0.1, some: 0.1, large: 1.3 },
    "start-gaps": { apart: 0.3, "some-close": -1, close: -2 },
  },
};
