import type { LevelOf, ObservationId } from "../../shared/findings/observation";

/**
 * How often each answer comes up where nothing has to do with it: at a sound site, and at a faulty one whose fault has no say in it.
 * False alarms, odd sites and wrong facts are in here, so no answer is rarer than 1 in 20: that bounds what one answer can weigh.
 * Judged, not counted (common practice, no source). Each row sums to 1.
 */
export const BACKGROUND: { readonly [K in ObservationId]: Readonly<Record<LevelOf<K>, number>> } = {
  "pump-kind": { drive: 0.85, switch: 0.15 },
  starts: { few: 0.82, many: 0.12, "very-many": 0.06 },
  runs: { long: 0.6, "some-short": 0.12, "mostly-short": 0.08, "never-stops": 0.2 },
  "starts-without-draw": { rare: 0.9, often: 0.1 },
  "starts-in-small-draws": { rare: 0.65, often: 0.35 },
  "cycle-against-tank": { "as-allowed": 0.88, shorter: 0.12 },
  "switching-band": { narrow: 0.12, usual: 0.76, wide: 0.12 },
  "tank-by-facts": { ample: 0.85, small: 0.1, tiny: 0.05 },
  "precharge-by-facts": { low: 0.07, "in-band": 0.86, high: 0.07 },
  "gas-constant": { collapsed: 0.05, reduced: 0.05, "as-expected": 0.77, raised: 0.13 },
  "gas-constant-by-practice": { tiny: 0.06, small: 0.16, enough: 0.78 },
  "empties-at": { "far-below": 0.1, "in-band": 0.8, "near-set": 0.1 },
  oscillation: { none: 0.85, small: 0.1, large: 0.05 },
  "oscillation-driver": { loop: 0.5, demand: 0.2, unclear: 0.3 },
  "oscillation-period": { fast: 0.5, middling: 0.3, slow: 0.2 },
  "surge-period": { agrees: 0.25, differs: 0.75 },
  "sensor-distance": { near: 0.82, beyond: 0.11, far: 0.07 },
  noise: { quiet: 0.88, noisy: 0.12 },
  "noise-with-flow": { steady: 0.93, grows: 0.07 },
  "sensor-lag": { prompt: 0.92, slow: 0.08 },
  "sensor-stuck": { no: 0.9, stuck: 0.05, frozen: 0.05 },
  "sensor-scale": { "as-expected": 0.94, off: 0.06 },
  "sensor-pinned": { no: 0.95, yes: 0.05 },
  "held-pressure": { "at-set": 0.87, below: 0.08, above: 0.05 },
  drift: { within: 0.85, over: 0.15 },
  droop: { little: 0.88, steep: 0.12 },
  overshoot: { little: 0.9, large: 0.1 },
  dips: { shallow: 0.72, deep: 0.17, "deep-and-slow": 0.11 },
  "quiet-times": { some: 0.88, none: 0.12 },
  "start-rhythm": { irregular: 0.88, regular: 0.12 },
  "leak-down": { none: 0.9, present: 0.1 },
  "leak-side": { system: 0.4, back: 0.3, unknown: 0.3 },
  "night-flow": { none: 0.75, present: 0.25 },
  prime: { held: 0.95, lost: 0.05 },
  overdraw: { none: 0.93, present: 0.07 },
  "overdraw-flow": { "below-rating": 0.5, "at-rating": 0.5 },
  shutoff: { full: 0.95, weak: 0.05 },
  "draw-rhythm": { irregular: 0.9, regular: 0.1 },
};
