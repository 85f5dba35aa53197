import type { CauseTable } from "./cause-table";

/**
 * The charge stands close to set pressure or above cut-in: the tank is empty before the pump starts, nothing carries the draw, and
 * pressure falls away at each start.
 */
export const prechargeHigh: CauseTable = {
  id: "precharge-high",
  prior: 1,
  weights: {
    "empties-at": { "far-below": -2, "in-band": -1, "near-set": 2 },
    "precharge-by-facts": { low: -2, "in-band": -0.3, high: 2 },
    "gas-constant": { collapsed: -1, reduced: -1, raised: 1.5 },
    "gas-constant-by-practice": { enough: 0.3 },
    dips: { shallow: -0.5, deep: 1, "deep-and-slow": 0.3 },
    runs: { "mostly-short": 0.5, "some-short": 0.3 },
    starts: { many: 0.3, "very-many": 0.3 },
    "switching-band": { wide: 0.3 },
    "leak-down": { present: -0.5 },
  },
};
