import type { CauseTable } from "./cause-table";

/**
 * The same value again and again while flow or the pump changes; near 0 C, ice in the port.
 */
export const sensorFrozenOrStuck: CauseTable = {
  id: "sensor-frozen-or-stuck",
  prior: 1,
  weights: {
    "jump-from-still": { none: -0.6, seen: 2.9 },
    "sensor-stuck": { no: -1.2, stuck: 2.8, frozen: 1 },
    // what stands still short of the set pressure looks like an error that nobody mends
    "loop-pace": { prompt: -0.2, slow: 1.7 },
    "answer-to-draw": { "keeps-up": -0.1, late: 0.6, "at-its-end": 0.1 },
    "held-pressure": { "at-set": -0.1, below: 0.1, above: 0.1 },
    "sunk-pressure": { held: -0.1, low: 0.2, gone: 0.1 },
    dips: { deep: 0.2, "deep-and-slow": 0.2 },
  },
};
