import { drawsOf, found, isClear, isFixedSpeed, type Looks, setPressureOf } from "./sight";

/** Share of set pressure that a dip or a droop may take without notice. */
const DEEP_DIP = 0.15;
const STEEP_DROOP = 0.12;
/** A loop that keeps up is back within this, s. */
const SLOW_RECOVERY = 20;
/** Least flow of the night against the highest flow of the log. */
const NIGHT_FLOW = 0.02;
const LEAST_DRAWS = 10;

/** Standard deviation over mean of the times between draws that begin one after the other; NaN with fewer than two. */
function spreadOfGaps(starts: readonly number[]): { readonly mean: number; readonly spread: number } {
  const gaps = starts.slice(1).map((t, i) => t - starts[i]);
  const mean = gaps.reduce((sum, g) => sum + g, 0) / gaps.length;
  const variance = gaps.reduce((sum, g) => sum + (g - mean) ** 2, 0) / (gaps.length - 1);
  return { mean, spread: Math.sqrt(variance) / mean };
}

export const pressureAndDrawLooks: Pick<Looks, "drift" | "droop" | "dips" | "leak-down" | "leak-side" | "night-flow" | "draw-rhythm"> = {
  drift(sight) {
    if (isClear(sight, "drift")) return { level: "within", numbers: { limit: sight.site.limits.driftAtSteadyFlow.value } };
    const drift = found(sight, "drift");
    if (drift === null || drift.windows.length === 0) return null;
    const over = drift.windows.filter((w) => w.over);
    const largest = drift.windows.reduce((most, w) => Math.max(most, Math.abs(w.change.value)), 0);
    return {
      level: over.length > 0 ? "over" : "within",
      numbers: { limit: drift.limit, largest, over: over.length, windows: drift.windows.length },
    };
  },
  droop(sight) {
    const [droop, flow, set] = [
      found(sight, "tracking")?.droop ?? null,
      found(sight, "pump-performance")?.peakFlow ?? null,
      setPressureOf(sight),
    ];
    if (isFixedSpeed(sight.site) || droop === null || flow === null || set === null || !(set > 0)) return null;
    const fall = droop.value * flow;
    return { level: fall / set > STEEP_DROOP ? "steep" : "little", numbers: { fall, flow, setPressure: set } };
  },
  dips(sight) {
    const [dip, set] = [found(sight, "tracking")?.worstDip ?? null, setPressureOf(sight)];
    if (isFixedSpeed(sight.site) || set === null || !(set > 0) || dip === null) return null;
    const numbers = { depth: dip.depth, setPressure: set, recovery: dip.recovery ?? "not within the record" };
    if (dip.depth / set < DEEP_DIP) return { level: "shallow", numbers };
    return { level: dip.recovery !== null && dip.recovery < SLOW_RECOVERY ? "deep" : "deep-and-slow", numbers };
  },
  "leak-down"(sight) {
    if (isClear(sight, "leak-down")) return { level: "none", numbers: {} };
    const leak = found(sight, "leak-down");
    if (leak === null) return null;
    return leak.flow.low > 0 ? { level: "present", numbers: { flow: leak.flow.value } } : { level: "none", numbers: {} };
  },
  "leak-side"(sight) {
    const leak = found(sight, "leak-down");
    return leak === null || !(leak.flow.low > 0) ? null : { level: leak.side, numbers: { flow: leak.flow.value } };
  },
  "night-flow"(sight) {
    const [night, peak] = [found(sight, "leak-down")?.minimumNightFlow ?? null, found(sight, "pump-performance")?.peakFlow ?? null];
    if (night === null || peak === null || !(peak > 0)) return null;
    return { level: night / peak > NIGHT_FLOW ? "present" : "none", numbers: { night, peak } };
  },
  /** By metered draws only: draws seen in pressure alone may be the pump's own saw-tooth. */
  "draw-rhythm"(sight) {
    const draws = drawsOf(sight);
    if (draws === null || draws.basis !== "flow" || draws.draws.length < LEAST_DRAWS) return null;
    const { mean, spread } = spreadOfGaps(draws.draws.map((d) => d.from));
    return { level: spread < 0.3 ? "regular" : "irregular", numbers: { mean, spread, draws: draws.draws.length } };
  },
};
