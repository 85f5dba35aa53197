import type { CauseTable } from "./cause-table";

/**
 * The tank is sound but holds too little for this pump: cycles are short and as short as the gas law says they must be.
 * Not told from low charge by short cycles; told by the gas constant against the facts, or by the volume on the tank's plate.
 */
export const tankTooSmall: CauseTable = {
  id: "tank-too-small",
  prior: 1,
  weights: {
    "tank-by-facts": { ample: -1.5, small: 1, tiny: 2 },
    "gas-constant": { collapsed: -1.5, reduced: -0.5, "as-expected": 0.5 },
    "gas-constant-by-practice": { tiny: 1.5, small: 1, enough: -1.5 },
    "cycle-against-tank": { "as-allowed": 0.3, shorter: -0.5 },
    runs: { long: -0.5, "some-short": 0.5, "mostly-short": 1, "never-stops": -0.5 },
    starts: { few: -0.5, many: 0.5, "very-many": 0.5 },
    "empties-at": { "in-band": 0.3, "far-below": -0.5, "near-set": -1 },
    "precharge-by-facts": { low: -0.5, high: -0.5 },
    // less give means more pressure per litre: the loop sees a livelier plant
    oscillation: { large: 0.3 },
    "leak-down": { present: -0.5 },
    "starts-without-draw": { often: -0.5 },
  },
};
