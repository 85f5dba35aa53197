import type { CauseTable } from "./cause-table";

/**
 * The charge stands close to set pressure or above cut-in: the tank is empty before the pump starts, nothing carries the draw, and
 * pressure falls away at each start.
 */
export const prechargeHigh: CauseTable = {
  id: "precharge-high",
  prior: 1,
  weights: {
    "empties-at": { "far-below": -1.3, "in-band": -1.9, "near-set": 2.2 },
    // no break is no proof: a charge above the stop pressure has none within reach
    "fall-breaks": { nowhere: -0.3, below: -2, "near-set": 2.5 },
    "precharge-by-facts": { low: -0.7, "in-band": -0.3, high: 2 },
    "gas-constant": { collapsed: 2.3, "as-expected": -0.6, raised: 1.2 },
    dips: { shallow: -1.1, deep: 1.2 },
    runs: { long: -0.3, "some-short": 0.5, "mostly-short": 1.2, "never-stops": 0.5 },
    starts: { few: -0.3, many: 1, "very-many": 1.1 },
    drift: { over: 0.8 },
    oscillation: { large: 0.6 },
    "gas-constant-by-practice": { tiny: 1.7, small: 1, enough: -0.4 },
    "switching-band": { narrow: 0.4, usual: -0.4, wide: 2 },
    // an empty tank has only the give of its pipes
    "usual-fall": { sudden: 2, quick: 0.8, usual: -1.6 },
    "rise-pace": { sudden: 1.6, prompt: -1.1, late: -0.8, slow: -0.8 },
    "start-gaps": { apart: -0.5, "some-close": 1, close: 0.5 },
  },
};
