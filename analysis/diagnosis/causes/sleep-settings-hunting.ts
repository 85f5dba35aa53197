import type { CauseTable } from "./cause-table";

/**
 * The drive goes to sleep and wakes while a little water is drawn: short delay or narrow band, with a sound tank.
 */
export const sleepSettingsHunting: CauseTable = {
  id: "sleep-settings-hunting",
  prior: 1,
  weights: {
    "starts-in-small-draws": { rare: -0.7, often: 1 },
    runs: { long: -1, "some-short": 1.5, "mostly-short": 2, "never-stops": -2 },
    starts: { few: -1, many: 1.5, "very-many": 1.5 },
    "switching-band": { narrow: 1.5, wide: -0.5 },
    // the tank must be sound, else it explains the short cycles
    "gas-constant": { collapsed: -2, reduced: -1.5 },
    "gas-constant-by-practice": { tiny: -1.5, small: -0.5 },
    "tank-by-facts": { small: -0.5, tiny: -1 },
    "empties-at": { "far-below": -0.5, "near-set": -0.5 },
    dips: { deep: -0.7 },
    "start-rhythm": { regular: 1 },
    oscillation: { small: 0.7, large: 1 },
    "oscillation-period": { fast: -0.3, middling: 0.5 },
    "pump-kind": { switch: -4 },
  },
};
