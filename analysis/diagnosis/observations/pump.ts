import type { Span } from "../../../shared/findings/span";
import { channelsOf } from "../../../shared/record/find-channel";
import { sunkPressure } from "./answer";
import { found, isClear, type Looks, pumpOf, type Sight } from "./sight";

/** Below this share of what it should be, the pressure at full speed and little flow is weak. */
const WEAK_SHUTOFF = 0.85;

const total = (spans: readonly Span[]) => spans.reduce((sum, s) => sum + s.to - s.from, 0);
const looked = (sight: Sight) => found(sight, "pump-performance") !== null || isClear(sight, "pump-performance");

const logs = (sight: Sight, role: "flow" | "speed" | "current" | "power") => channelsOf(sight.record, role).length > 0;
/** Of the pressure to be held: above that no pump has lost its water. */
const HOLDS = 0.4;
/**
 * Whether a pump that lost its water would have been seen to: something other than pressure and flow must say that it ran. Where the pressure sank all the same, only
 * the meter tells that water came: the motor of a drive need not run lighter without it than at small draws.
 */
const showsPrime = (sight: Sight) => {
  const basis = pumpOf(sight)?.basis;
  const witness = basis === "running" || basis === "speed" || basis === "current" || basis === "power";
  if (!witness) return false;
  if (logs(sight, "flow")) return true;
  const sunk = sunkPressure(sight);
  return (logs(sight, "current") || logs(sight, "power")) && (sunk === null || sunk.lowest >= HOLDS * sunk.held);
};

export const pumpLooks: Pick<Looks, "prime" | "overdraw" | "shutoff"> = {
  prime(sight) {
    const spans = found(sight, "pump-performance")?.lossOfPrime ?? [];
    if (!looked(sight) || (spans.length === 0 && !showsPrime(sight))) return null;
    return { level: spans.length > 0 ? "lost" : "held", numbers: { times: spans.length, total: total(spans) } };
  },
  overdraw(sight) {
    if (!looked(sight)) return null;
    const spans = found(sight, "pump-performance")?.overdraw ?? [];
    if (spans.length === 0) return logs(sight, "speed") && sight.site.setPressure !== null ? { level: "none", numbers: {} } : null;
    return { level: "present", numbers: { total: total(spans), times: spans.length } };
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
