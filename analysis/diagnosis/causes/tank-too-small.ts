import type { CauseTable } from "./cause-table";

/**
 * The tank is sound but holds too little for this pump: cycles are short and as short as the gas law says they must be.
 * Not told from low charge by short cycles; told by the gas constant against the facts, or by the volume on the tank's plate.
 */
export const tankTooSmall: CauseTable = {
  id: "tank-too-small",
  prior: 1,
  weights: {
    "tank-by-facts": { ample: -1.5, small: 1.7, tiny: 3 },
    "gas-constant": { collapsed: -1, reduced: -0.5, raised: 0.3 },
    "gas-constant-by-practice": { tiny: 2.5, small: 1.5, enough: -1.5 },
    "empties-at": { "far-below": -0.5, "near-set": -0.5 },
    runs: { long: -0.3, "some-short": 1, "mostly-short": 2, "never-stops": -0.5 },
    starts: { few: -0.3, many: 1, "very-many": 1.5 },
    // less give means more pressure per litre: the loop sees a livelier plant
    oscillation: { large: 0.5 },
    dips: { shallow: -0.3, deep: 1.3 },
    "switching-band": { wide: 0.7 },
    "start-rhythm": { regular: 0.5 },
  },
};
