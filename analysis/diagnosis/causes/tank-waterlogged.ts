import type { CauseTable } from "./cause-table";

/**
 * The tank is full of water: diaphragm torn or the gas all but gone. Next to no give is left, whatever the plate says; no knee shows,
 * since there is nothing to run empty.
 */
export const tankWaterlogged: CauseTable = {
  id: "tank-waterlogged",
  prior: 1,
  weights: {
    "gas-constant": { collapsed: 2.6, reduced: 1, "as-expected": -3.1, raised: -2.2 },
    "gas-constant-by-practice": { tiny: 3, small: 0.8, enough: -2.2 },
    "cycle-against-tank": { "as-allowed": -0.6, shorter: 2.4 },
    runs: { long: -0.3, "some-short": 0.5, "mostly-short": 0.9 },
    starts: { few: -0.8, many: 0.6, "very-many": 2.4 },
    // a tank without gas shows no knee: where one shows, there is gas
    "empties-at": { "far-below": 1.1, "in-band": -0.3, "near-set": -0.4 },
    "fall-breaks": { nowhere: 0.1, below: -0.8, "near-set": -2.5 },
    dips: { shallow: -0.8, deep: 1.2, "deep-and-slow": -0.4 },
    drift: { over: 0.9 },
    oscillation: { small: 0.2, large: 0.3 },
    "switching-band": { narrow: 0.4, usual: -0.3, wide: 1.3 },
    "usual-fall": { sudden: 2.6, quick: 2.4, usual: -3 },
    "rise-pace": { sudden: 1.6, prompt: -0.7, late: -0.8, slow: -0.8 },
    overshoot: { little: -0.2, some: 0.6, large: 0.7 },
    "start-gaps": { apart: -0.4, "some-close": 0.4, close: 1.3 },
  },
};
