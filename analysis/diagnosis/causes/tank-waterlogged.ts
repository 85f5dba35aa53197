import type { CauseTable } from "./cause-table";

/**
 * The tank is full of water: diaphragm torn or the gas all but gone. Next to no give is left, whatever the plate says; no knee shows,
 * since there is nothing to run empty.
 */
export const tankWaterlogged: CauseTable = {
  id: "tank-waterlogged",
  prior: 1,
  weights: {
    "gas-constant": { collapsed: 2.5, reduced: 0, "as-expected": -2, raised: -2 },
    "gas-constant-by-practice": { tiny: 1.5, small: -0.3, enough: -2 },
    "cycle-against-tank": { shorter: 1, "as-allowed": -1 },
    runs: { long: -0.7, "some-short": 0.3, "mostly-short": 1 },
    starts: { few: -0.7, many: 0.3, "very-many": 0.7 },
    "empties-at": { "in-band": -1, "near-set": -1, "far-below": 0.3 },
    "tank-by-facts": { tiny: -0.5 },
    dips: { deep: 0.3 },
    oscillation: { large: 0.3 },
    "leak-down": { present: -0.3 },
  },
};
