import type { CauseTable } from "./cause-table";

/**
 * The tank is full of water: diaphragm torn or the gas all but gone. Next to no give is left, whatever the plate says; no knee shows,
 * since there is nothing to run empty.
 */
export const tankWaterlogged: CauseTable = {
  id: "tank-waterlogged",
  prior: 1,
  weights: {
    "gas-constant": { collapsed: 3.1, reduced: 0.2, "as-expected": -2.9, raised: -2.2 },
    "gas-constant-by-practice": { tiny: 3, small: 0.4, enough: -2.2 },
    "cycle-against-tank": { "as-allowed": -0.6, shorter: 2.4 },
    runs: { long: -0.7, "some-short": 0.2, "mostly-short": 1.4 },
    starts: { few: -1, many: 0.8, "very-many": 2.4 },
    // a tank without gas shows no knee: where one shows, there is gas
    "empties-at": { "far-below": 1.1, "in-band": -0.3, "near-set": -0.4 },
    dips: { shallow: -0.8, deep: 1.2, "deep-and-slow": -0.4 },
    drift: { over: 0.9 },
    oscillation: { small: 0.4, large: 0.3 },
    "switching-band": { narrow: 0.4, usual: -0.3, wide: 1.3 },
    "steepest-fall": { possible: -1, strained: 1.8, impossible: 2.2 },
    "rise-pace": { sudden: 1.4, prompt: -0.7, late: -0.8, slow: -0.8 },
    overshoot: { little: -0.3, some: 0.1, large: 1.2 },
    "start-gaps": { apart: -0.4, "some-close": 0.4, close: 1.3 },
  },
};
