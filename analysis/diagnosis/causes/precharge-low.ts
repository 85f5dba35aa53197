import type { CauseTable } from "./cause-table";

/**
 * Some gas is gone: the gas constant p0 Vt has fallen with the absolute charge, the tank runs empty far below set pressure, and it is
 * stiffer (C = p0 Vt / p2), so that cycles shorten and pressure drifts.
 */
export const prechargeLow: CauseTable = {
  id: "precharge-low",
  prior: 1,
  weights: {
    "gas-constant": { collapsed: 1, reduced: 2.9, "as-expected": -1.3, raised: -2 },
    "empties-at": { "far-below": 2.5, "in-band": -1.5, "near-set": -1.5 },
    "precharge-by-facts": { low: 1.7, "in-band": -0.2, high: -1 },
    "gas-constant-by-practice": { tiny: 0.5, small: 0.7 },
    "cycle-against-tank": { shorter: 1 },
    runs: { "some-short": 0.7, "mostly-short": 1.7 },
    starts: { many: 0.7, "very-many": 1 },
    drift: { over: 0.7 },
    oscillation: { large: 0.3 },
    dips: { deep: 0.7 },
    "start-rhythm": { regular: 0.5 },
  },
};
