import type { CauseTable } from "./cause-table";

/**
 * The tank is sound but holds too little for this pump: cycles are short and as short as the gas law says they must be.
 * Not told from low charge by short cycles; told by the gas constant against the facts, or by the volume on the tank's plate.
 */
export const tankTooSmall: CauseTable = {
  id: "tank-too-small",
  prior: 1,
  weights: {
    "tank-by-facts": { ample: -3, small: 1.5, tiny: 3 },
    "precharge-by-facts": { low: -0.6, "in-band": 0.3, high: -0.6 },
    "gas-constant": { collapsed: -1.4, reduced: -0.4, raised: 1.5 },
    "gas-constant-by-practice": { tiny: 2.5, small: 2.3, enough: -2.6 },
    "empties-at": { "far-below": -0.2, "near-set": -0.6 },
    "fall-breaks": { "near-set": -1.5 }, // its charge is right
    runs: { long: -0.8, "some-short": 0.3, "mostly-short": 1.6, "never-stops": -0.4 },
    starts: { few: -1, many: 1.3, "very-many": 2.2 },
    // less give means more pressure per litre: the loop sees a livelier plant
    dips: { shallow: -0.7, deep: 1.1, "deep-and-slow": -0.4 },
    "switching-band": { narrow: 0.4, wide: 0.7 },
    "start-rhythm": { regular: 0.2 },
    "usual-fall": { sudden: -0.5, quick: 0.5 },
    // dp/dt = (Qp - Qd)/C: what has little give is full in a moment, and over
    "rise-pace": { sudden: 1.9, prompt: -1.2, late: -0.8, slow: -0.8 },
    overshoot: { little: -0.2, some: 0.1, large: 0.9 },
    "start-gaps": { apart: -0.3, "some-close": 0.6, close: 1 },
  },
};
