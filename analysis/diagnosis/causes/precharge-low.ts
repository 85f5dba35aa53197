import type { CauseTable } from "./cause-table";

/**
 * Some gas is gone: the gas constant p0 Vt has fallen with the absolute charge, the tank runs empty far below set pressure, and it is
 * stiffer (C = p0 Vt / p2), so that cycles shorten and pressure drifts.
 */
export const prechargeLow: CauseTable = {
  id: "precharge-low",
  prior: 1,
  weights: {
    "gas-constant": { collapsed: 1, reduced: 3, lessened: 2, "as-expected": -2.1, raised: -2.2 },
    "empties-at": { "far-below": 2.1, "in-band": -2, "near-set": -2.1 },
    "fall-breaks": { "near-set": -2 },
    "precharge-by-facts": { low: 2.2, "in-band": -0.4, high: -1.7 },
    "gas-constant-by-practice": { tiny: 0.2, small: 2.1, enough: -0.4 },
    "cycle-against-tank": { "as-allowed": -0.2, shorter: 1.5 },
    runs: { long: -0.2, "some-short": 0.3, "mostly-short": 1.1, "never-stops": 0.1 },
    starts: { few: -0.2, many: 1.2, "very-many": 0.6 },
    drift: { over: 1 },
    dips: { deep: 0.3, "deep-and-slow": -0.4 },
    "start-rhythm": { regular: 0.3 },
    "usual-fall": { sudden: -0.4, quick: 1.2 },
    // a stiffer tank raises the gain of the loop around it
    oscillation: { large: 0.3 },
    overshoot: { little: -0.1, some: 0.4, large: 0.1 },
    "rise-pace": { sudden: 1.4, prompt: -0.6, late: -0.7, slow: -0.5 },
    "start-gaps": { apart: -0.1, "some-close": 0.8, close: 0.2 },
  },
};
