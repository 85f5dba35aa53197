import type { CauseTable } from "./cause-table";

/**
 * The drive goes to sleep and wakes while a little water is drawn: short delay or narrow band, with a sound tank.
 */
export const sleepSettingsHunting: CauseTable = {
  id: "sleep-settings-hunting",
  prior: 1,
  weights: {
    "starts-in-small-draws": { rare: -0.6 },
    // short runs that follow each other closely are the same fact told by a tank without give: they speak no louder here than there
    runs: { long: -2.1, "some-short": 0.3, "mostly-short": 1.6, "never-stops": -2 },
    starts: { few: -1.5, many: 1.3, "very-many": 2.2 },
    "start-gaps": { apart: -2.2, "some-close": 0.3, close: 1.3 },
    "start-rhythm": { irregular: -0.2, regular: 0.3 },
    // what parts the two: a band that somebody set, and a tank that gives what it should
    "switching-band": { narrow: 2.2, usual: -1.2, wide: -2.5 },
    "gas-constant": { collapsed: -2.4, reduced: -2.4, raised: 0.4 },
    "gas-constant-by-practice": { tiny: -1.7, small: -0.2 },
    "tank-by-facts": { small: -0.6, tiny: -1.9 },
    "usual-fall": { sudden: -1.6, quick: -0.4 },
    "rise-pace": { sudden: -1 },
    "empties-at": { "far-below": -0.8, "near-set": -0.6 },
    dips: { shallow: 0.2, deep: -1.2, "deep-and-slow": -0.4 },
    oscillation: { none: -0.1, small: 0.3, large: 0.3 },
    // what swings in a run, before any stop, does not come of the stops
    "swing-in-runs": { within: -1, "from-stop-to-stop": 1 },
    "oscillation-period": { fast: -0.3, middling: 0.3, slow: -0.3 },
    "pump-kind": { switch: -9 }, // there is no drive to be set
    overshoot: { little: 0.6, large: -1.2 },
  },
};
