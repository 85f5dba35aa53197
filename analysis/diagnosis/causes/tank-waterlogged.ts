import type { CauseTable } from "./cause-table";

/**
 * The tank is full of water: diaphragm torn or the gas all but gone. Next to no give is left, whatever the plate says; no knee shows,
 * since there is nothing to run empty.
 */
export const tankWaterlogged: CauseTable = {
  id: "tank-waterlogged",
  prior: 1,
  weights: {
    "gas-constant": { collapsed: 3, reduced: 1, "as-expected": -2, raised: -2 },
    "gas-constant-by-practice": { tiny: 2.5, enough: -1.5 },
    "cycle-against-tank": { "as-allowed": -0.5, shorter: 1.5 },
    runs: { long: -0.5, "some-short": 0.5, "mostly-short": 2, "never-stops": -0.3 },
    starts: { few: -0.5, many: 1, "very-many": 2 },
    // a tank without gas shows no knee: where one shows, there is gas
    "empties-at": { "far-below": 0.5, "in-band": -1, "near-set": -1 },
    dips: { shallow: -0.5, deep: 1.5 },
    drift: { over: 0.5 },
    oscillation: { large: 0.5 },
    "start-rhythm": { regular: 0.5 },
    "switching-band": { wide: 1.2 },
  },
};
