import type { AcceptanceLine } from "../../shared/findings/acceptance";
import { strongestEpisode } from "../../shared/findings/strongest-episode";
import { highestOf } from "../../shared/record/highest";
import { pascalDifference } from "../../shared/units/pressure";
import { shareWithinBand } from "../comparison/within-band";
import { found, isClear, pumpOf, type Sight } from "../diagnosis/observations/sight";
import { LEAST_WITHIN_BAND } from "../diagnosis/practice";
import { atLeast, atMost, cannotTell, exactly, judge, originOf } from "./judge";

/** How pressure was held: marked pressure, band, dips, switching, drift, oscillation. */
export const HOLDING: readonly ((sight: Sight) => AcceptanceLine)[] = [
  markedPressure,
  withinBand,
  worstDip,
  startsPerHour,
  shortCycles,
  drift,
  oscillation,
];

function markedPressure({ site, record }: Sight): AcceptanceLine {
  const marked = site.tankRatedPressure;
  const highest = highestOf(record, "pressure");
  if (highest === null) return cannotTell("marked-pressure", "log-pressure");
  if (marked === null) return cannotTell("marked-pressure", "give-marked-pressure", null, exactly(highest));
  return judge("marked-pressure", atMost(marked.value, "given"), exactly(highest));
}

function withinBand(sight: Sight): AcceptanceLine {
  const share = shareWithinBand(sight.record, sight);
  const stated = sight.site.limits.shareWithinBand;
  const limit = stated === null ? atLeast(LEAST_WITHIN_BAND, "practice") : atLeast(stated.value, originOf(stated));
  return share === null ? cannotTell("within-band", missingForTracking(sight), limit) : judge("within-band", limit, share);
}

function worstDip(sight: Sight): AcceptanceLine {
  const dip = found(sight, "tracking")?.worstDip ?? null;
  const { band, worstDip: stated } = sight.site.limits;
  const limit = stated === null ? atMost(restDepth(sight) + 2 * band.value, "practice") : atMost(stated.value, originOf(stated));
  return dip === null ? cannotTell("worst-dip", missingForTracking(sight), limit) : judge("worst-dip", limit, exactly(dip.depth));
}

/** A pump that rests lets the pressure fall to where it starts again before it answers: that much of a dip is meant. 0 where it is not known. */
function restDepth(sight: Sight): number {
  const { setPressure, restartPressure, cutIn } = sight.site;
  const set = found(sight, "tracking")?.setPressure ?? setPressure?.value ?? null;
  const start = restartPressure?.value ?? cutIn?.value ?? found(sight, "cycling")?.cutIn?.value ?? null;
  return set === null || start === null ? 0 : Math.max(0, set - start);
}

const missingForTracking = (sight: Sight) =>
  found(sight, "tracking")?.setPressure == null && sight.site.setPressure === null ? "give-set-pressure" : "log-flow";

function startsPerHour(sight: Sight): AcceptanceLine {
  const cycling = found(sight, "cycling");
  if (cycling === null) return cannotTell("starts-per-hour", "log-pump-state");
  const given = sight.site.limits.startsPerHour;
  const allowed = given?.value ?? cycling.allowedStartsPerHour;
  if (allowed === null) return cannotTell("starts-per-hour", "give-starts-limit", null, exactly(cycling.peakStartsPerHour));
  return judge("starts-per-hour", atMost(allowed, given === null ? "practice" : originOf(given)), exactly(cycling.peakStartsPerHour));
}

function shortCycles(sight: Sight): AcceptanceLine {
  const limit = atMost(0, originOf(sight.site.shortCycleLimit));
  const short = found(sight, "short-cycles");
  if (short !== null) return judge("short-cycles", limit, exactly(short.runs.length));
  if (isClear(sight, "short-cycles")) return judge("short-cycles", limit, exactly(0));
  return cannotTell("short-cycles", pumpOf(sight) === null ? "log-pump-state" : "log-faster", limit);
}

function drift(sight: Sight): AcceptanceLine {
  const { driftAtSteadyFlow } = sight.site.limits;
  const limit = atMost(driftAtSteadyFlow.value, originOf(driftAtSteadyFlow));
  const windows = found(sight, "drift")?.windows ?? [];
  if (windows.length === 0) return cannotTell("drift", "draw-steadily", limit);
  const { change } = windows.reduce((a, b) => (Math.abs(b.change.value) > Math.abs(a.change.value) ? b : a));
  const [a, b] = [Math.abs(change.low), Math.abs(change.high)];
  const crossesZero = change.low < 0 && change.high > 0;
  return judge("drift", limit, {
    value: Math.abs(change.value),
    low: crossesZero ? 0 : Math.min(a, b),
    high: Math.max(a, b),
  });
}

function oscillation(sight: Sight): AcceptanceLine {
  const { oscillationPeakToPeak } = sight.site.limits;
  const limit = atMost(oscillationPeakToPeak.value, originOf(oscillationPeakToPeak));
  const episodes = found(sight, "oscillation")?.episodes ?? [];
  const strongest = strongestEpisode(episodes)?.peakToPeak ?? null;
  if (strongest !== null) {
    // Surely over: one is enough. Else none of the others may be over either.
    const isOver = strongest.low > oscillationPeakToPeak.value;
    const highest = pascalDifference(episodes.reduce<number>((most, e) => Math.max(most, e.peakToPeak.high), strongest.high));
    return judge("oscillation", limit, isOver ? strongest : { ...strongest, high: highest });
  }
  return isClear(sight, "oscillation") ? judge("oscillation", limit, exactly(0)) : cannotTell("oscillation", "log-faster", limit);
}
