import type { CauseTable } from "./cause-table";

/**
 * The drive goes to sleep and wakes while a little water is drawn: short delay or narrow band, with a sound tank.
 */
export const sleepSettingsHunting: CauseTable = {
  id: "sleep-settings-hunting",
  prior: 1,
  weights: {
    "starts-in-small-draws": { rare: -0.7, often: 1 },
    runs: { long: -1, "some-short": 0.5, "mostly-short": 1, "never-stops": -2 },
    starts: { few: -1, many: 0.5, "very-many": 0.7 },
    "switching-band": { narrow: 1.2, usual: -0.2, wide: -0.7 },
    "gas-constant": { collapsed: -1.5, reduced: -0.7, "as-expected": 0.4 },
    "gas-constant-by-practice": { tiny: -1, small: -0.3, enough: 0.4 },
    "tank-by-facts": { ample: 0.2, small: -0.5, tiny: -1 },
    "leak-down": { present: -0.7 },
    "starts-without-draw": { often: -0.5 },
    "empties-at": { "far-below": -0.5, "near-set": -0.7 },
  },
};
