import type { LevelOf, ObservationId } from "../../shared/findings/observation";

/**
 * How often each answer comes up at a site that was worth logging, whatever its trouble: what the tables of the causes are measured
 * against. Judged, not counted (common practice, no source); broad on purpose. Each row sums to 1.
 */
export const USUAL: { readonly [K in ObservationId]: Readonly<Record<LevelOf<K>, number>> } = {
  starts: { few: 0.6, many: 0.25, "very-many": 0.15 },
  runs: { long: 0.45, "some-short": 0.15, "mostly-short": 0.2, "never-stops": 0.2 },
  "starts-without-draw": { rare: 0.75, often: 0.25 },
  "starts-in-small-draws": { rare: 0.65, often: 0.35 },
  "cycle-against-tank": { "as-allowed": 0.7, shorter: 0.3 },
  "switching-band": { narrow: 0.2, usual: 0.6, wide: 0.2 },
  "tank-by-facts": { ample: 0.75, small: 0.15, tiny: 0.1 },
  "precharge-by-facts": { low: 0.12, "in-band": 0.76, high: 0.12 },
  "gas-constant": { collapsed: 0.1, reduced: 0.2, "as-expected": 0.6, raised: 0.1 },
  "gas-constant-by-practice": { tiny: 0.15, small: 0.25, enough: 0.6 },
  "empties-at": { "far-below": 0.2, "in-band": 0.6, "near-set": 0.2 },
  oscillation: { none: 0.6, small: 0.15, large: 0.25 },
  "oscillation-driver": { loop: 0.5, demand: 0.2, unclear: 0.3 },
  "oscillation-period": { fast: 0.5, middling: 0.3, slow: 0.2 },
  "surge-period": { agrees: 0.3, differs: 0.7 },
  "sensor-distance": { near: 0.75, beyond: 0.15, far: 0.1 },
  noise: { quiet: 0.8, noisy: 0.2 },
  "noise-with-flow": { steady: 0.8, grows: 0.2 },
  "sensor-lag": { prompt: 0.85, slow: 0.15 },
  "sensor-stuck": { no: 0.88, stuck: 0.07, frozen: 0.05 },
  "sensor-scale": { "as-expected": 0.88, off: 0.12 },
  "sensor-pinned": { no: 0.94, yes: 0.06 },
  "held-pressure": { "at-set": 0.7, below: 0.2, above: 0.1 },
  drift: { within: 0.7, over: 0.3 },
  droop: { little: 0.8, steep: 0.2 },
  dips: { shallow: 0.6, deep: 0.2, "deep-and-slow": 0.2 },
  "leak-down": { none: 0.75, present: 0.25 },
  "leak-side": { system: 0.4, back: 0.3, unknown: 0.3 },
  "night-flow": { none: 0.7, present: 0.3 },
  prime: { held: 0.93, lost: 0.07 },
  overdraw: { none: 0.82, "below-rating": 0.06, "at-rating": 0.06, "rating-unknown": 0.06 },
  shutoff: { full: 0.88, weak: 0.12 },
  "draw-rhythm": { irregular: 0.85, regular: 0.15 },
};
