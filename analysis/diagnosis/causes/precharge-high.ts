import type { CauseTable } from "./cause-table";

/**
 * The charge stands close to set pressure or above cut-in: the tank is empty before the pump starts, nothing carries the draw, and
 * pressure falls away at each start.
 */
export const prechargeHigh: CauseTable = {
  id: "precharge-high",
  prior: 1,
  weights: {
    "empties-at": { "far-below": -2, "in-band": -1, "near-set": 2.5 },
    "precharge-by-facts": { low: -1, "in-band": -0.2, high: 1.7 },
    "gas-constant": { collapsed: 1.5, reduced: 0.3, "as-expected": -0.7, raised: 1 },
    dips: { shallow: -0.7, deep: 1.8, "deep-and-slow": 0.5 },
    runs: { "some-short": 0.5, "mostly-short": 1 },
    starts: { many: 0.5, "very-many": 0.5 },
    drift: { over: 0.3 },
    oscillation: { large: 0.5 },
    "gas-constant-by-practice": { tiny: 1.5, small: 0.3, enough: -0.5 },
    "switching-band": { wide: 1.5 },
  },
};
