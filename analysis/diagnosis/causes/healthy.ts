import type { CauseTable } from "./cause-table";

/**
 * Nothing is wrong that this log could show. Competes like any other: every harmless answer speaks for it, every other against.
 * Met more often than any one fault, since a log is also taken to be sure.
 */
export const healthy: CauseTable = {
  id: "healthy",
  prior: 5,
  weights: {
    starts: { few: 0.5, many: -1, "very-many": -2.5 },
    runs: { long: 0.4, "some-short": -0.5, "mostly-short": -2, "never-stops": 0.2 },
    "starts-without-draw": { rare: 0.2, often: -1.5 },
    "starts-in-small-draws": { rare: 0.1 },
    "cycle-against-tank": { "as-allowed": 0.2, shorter: -0.7 },
    "tank-by-facts": { ample: 0.25, small: -1, tiny: -2 },
    "precharge-by-facts": { low: -1.7, "in-band": 0.2, high: -1.7 },
    "gas-constant": { collapsed: -2.5, reduced: -1.2, "as-expected": 0.4, raised: -0.7 },
    "gas-constant-by-practice": { tiny: -2, small: -0.5, enough: 0.4 },
    "empties-at": { "far-below": -1.5, "in-band": 0.4, "near-set": -1.5 },
    oscillation: { none: 0.4, small: -0.3, large: -2 },
    "sensor-distance": { near: 0.2, beyond: -0.5, far: -1.5 },
    noise: { quiet: 0.2, noisy: -1 },
    "noise-with-flow": { steady: 0.2, grows: -1 },
    "sensor-lag": { prompt: 0.1, slow: -1.7 },
    "sensor-stuck": { no: 0.1, stuck: -2.5, frozen: -2.5 },
    "sensor-scale": { "as-expected": 0.1, off: -2.5 },
    "sensor-pinned": { yes: -2 },
    "held-pressure": { "at-set": 0.3, below: -1.5, above: -1.5 },
    drift: { within: 0.2, over: -0.7 },
    droop: { little: 0.1, steep: -0.7 },
    dips: { shallow: 0.3, deep: -0.5, "deep-and-slow": -1 },
    "leak-down": { none: 0.2, present: -2 },
    "night-flow": { none: 0.1, present: -0.3 },
    prime: { held: 0.1, lost: -2.5 },
    overdraw: { none: 0.15, "below-rating": -2, "at-rating": -2, "rating-unknown": -2 },
    shutoff: { full: 0.1, weak: -2 },
    "draw-rhythm": { irregular: 0.1, regular: -0.7 },
  },
};
