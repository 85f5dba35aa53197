import type { CauseTable } from "./cause-table";

/**
 * Some gas is gone: the gas constant p0 Vt has fallen with the absolute charge, the tank runs empty far below set pressure, and it is
 * stiffer (C = p0 Vt / p2), so that cycles shorten and pressure drifts.
 */
export const prechargeLow: CauseTable = {
  id: "precharge-low",
  prior: 1,
  weights: {
    "gas-constant": { collapsed: 0.5, reduced: 1.5, "as-expected": -1, raised: -2 },
    "empties-at": { "far-below": 2, "in-band": -1.5, "near-set": -2 },
    "precharge-by-facts": { low: 2, "in-band": -0.3, high: -2 },
    "gas-constant-by-practice": { tiny: 0.5, small: 1, enough: -0.7 },
    "cycle-against-tank": { shorter: 0.7, "as-allowed": -0.3 },
    runs: { long: -0.3, "some-short": 0.3, "mostly-short": 0.5 },
    starts: { few: -0.3, many: 0.3, "very-many": 0.3 },
    "tank-by-facts": { tiny: -0.5 },
    drift: { over: 0.5 },
    "leak-down": { present: -0.5 },
    "starts-without-draw": { often: -0.5 },
  },
};
