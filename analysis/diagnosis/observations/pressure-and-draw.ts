import type { Numbers } from "../../../shared/findings/observation";
import { hasFloor } from "./floor-of-draw";
import { heldElsewhere } from "./held-elsewhere";
import { fallGoesOn } from "./rest-fall";
import { drawsOf, found, isClear, isFixedSpeed, type Looks, pumpOf, type Sight, setPressureOf } from "./sight";

/** Share of set pressure that a dip or a droop may take without notice. */
const DEEP_DIP = 0.25;
const STEEP_DROOP = 0.12;
/** A loop that keeps up is back within this, s. */
const SLOW_RECOVERY = 60;
/** Least flow of the night against the highest flow of the log. */
const NIGHT_FLOW = 0.02;
/** Share of the record that quiet times must come to, and the shortest record in which their absence means something, s. */
const NO_QUIET = 0.01;
const LEAST_RECORD = 3 * 3600;
/** A fall at rest was seen, but how much water that is cannot be said without the tank's facts. */
const fallsAtRest = ({ outcomes }: Sight) =>
  outcomes.some((o) => o.kind === "leak-down" && o.state === "cannot-tell" && o.because.some((b) => "risePerPaS" in b.detail));

export const pressureAndDrawLooks: Pick<Looks, "drift" | "droop" | "dips" | "quiet-times" | "leak-down" | "leak-side" | "night-flow"> = {
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
    const until = dip.recovery === null ? Number.POSITIVE_INFINITY : dip.at + dip.recovery;
    if (heldElsewhere(sight).some(({ from, to }) => dip.at <= to && until >= from)) return null; // the pressure asked for went down, or is another
    const numbers = { depth: dip.depth, setPressure: set, recovery: dip.recovery ?? "not-recorded" };
    if (dip.depth / set < DEEP_DIP) return { level: "shallow", numbers };
    return { level: dip.recovery !== null && dip.recovery < SLOW_RECOVERY ? "deep" : "deep-and-slow", numbers };
  },
  /**
   * That no time is quiet says by itself nothing of a leak: a hotel draws without a pause, and most sites do by day. Only where the least that goes is the same
   * again and again does water go somewhere all the time.
   */
  "quiet-times"(sight) {
    const [draws, pump] = [drawsOf(sight), pumpOf(sight)];
    // a meter before the tank shows nothing in every rest, whatever is drawn from the tank meanwhile
    if (draws?.basis === "flow" && sight.segments.meter.place === "before-tank") return null;
    if (draws === null || pump?.mode !== "switching" || sight.record.duration < LEAST_RECORD) return null;
    const idle = draws.idle.reduce((sum, s) => sum + s.to - s.from, 0);
    if (idle >= NO_QUIET * sight.record.duration) return { level: "some", numbers: { idle } };
    return hasFloor(sight) ? { level: "none", numbers: { idle } } : null;
  },
  "leak-down"(sight) {
    if (isClear(sight, "leak-down")) return { level: "none", numbers: {} };
    const leak = found(sight, "leak-down");
    if (leak === null && !fallsAtRest(sight)) return null;
    if (leak !== null && !(leak.flow.low > 0)) return { level: "none", numbers: {} };
    const unmetered: Numbers = drawsOf(sight)?.basis === "pressure" ? { unmetered: "yes" } : {};
    const numbers: Numbers = leak === null ? unmetered : { flow: leak.flow.value, ...unmetered };
    const goesOn = fallGoesOn(sight);
    if (leak === null && goesOn === null) return null; // neither how much nor whether it goes on is known
    return { level: goesOn === false ? "passing" : "present", numbers };
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
};
