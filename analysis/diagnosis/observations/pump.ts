import type { Span } from "../../../shared/findings/span";
import { found, isClear, type Looks, type Sight } from "./sight";

/** Below this share of what it should be, the pressure at full speed and little flow is weak. */
const WEAK_SHUTOFF = 0.85;
/** Below this share of its rating a pump at full speed gives less than it should. */
const BELOW_RATING = 0.75;

const total = (spans: readonly Span[]) => spans.reduce((sum, s) => sum + s.to - s.from, 0);
const looked = (sight: Sight) => found(sight, "pump-performance") !== null || isClear(sight, "pump-performance");

export const pumpLooks: Pick<Looks, "prime" | "overdraw" | "shutoff"> = {
  prime(sight) {
    if (!looked(sight)) return null;
    const spans = found(sight, "pump-performance")?.lossOfPrime ?? [];
    return { level: spans.length > 0 ? "lost" : "held", numbers: { times: spans.length, total: total(spans) } };
  },
  overdraw(sight) {
    if (!looked(sight)) return null;
    const pump = found(sight, "pump-performance");
    const spans = pump?.overdraw ?? [];
    if (spans.length === 0) return { level: "none", numbers: {} };
    const [flow, rated] = [pump?.peakFlow ?? null, sight.site.pumpRatedFlow?.value ?? null];
    const numbers = { total: total(spans), times: spans.length };
    if (flow === null || rated === null) return { level: "rating-unknown", numbers };
    return { level: flow < BELOW_RATING * rated ? "below-rating" : "at-rating", numbers: { ...numbers, flow, rated } };
  },
  shutoff(sight) {
    const pump = found(sight, "pump-performance");
    if (pump === null || pump.shutoffPressure === null || pump.expectedShutoff === null || !(pump.expectedShutoff > 0)) return null;
    const ratio = pump.shutoffPressure / pump.expectedShutoff;
    return {
      level: ratio < WEAK_SHUTOFF ? "weak" : "full",
      numbers: { shutoff: pump.shutoffPressure, expected: pump.expectedShutoff, ratio },
    };
  },
};
