import { atLeast, atMost, cannotTell, exactly, isInside, judge } from "../../../analysis/acceptance/judge";
import { LEAST_WITHIN_BAND, SENSOR_WITHIN } from "../../../analysis/diagnosis/practice";
import type { AcceptanceId, AcceptanceLimit, AcceptanceLine } from "../../../shared/findings/acceptance";
import type { FindingKind } from "../../../shared/findings/finding";
import type { Fact, SiteFacts } from "../../../shared/site/site-facts";
import { COMPANY_CHECKS, type DigestCheck, type DigestSheet } from "../../storage/digest-sheet";
import type { VisitDigest } from "../../storage/visit-digest";

/** A visit held against limits: its checks, and findings over a limit that no check stands for. */
export type Judged = { readonly checks: readonly AcceptanceLine[]; readonly others: readonly FindingKind[] };

/** Bands that differ by less are the same, written in different units. */
const SAME = 0.01;

/**
 * A kept visit against the limits of today, from the numbers it was kept with: a limit that the site states itself stays, a company's limit is
 * that of today. What cannot be told without the log (the share within another band) is not told.
 * @param today facts of no site under the company's limits of today
 */
export function judgeDigest({ sheet, broken }: VisitDigest, today: SiteFacts): Judged {
  const checks = (sheet?.checks ?? []).map((check) => judgeCheck(check, sheet as DigestSheet, today));
  const outside = new Set(checks.filter(isOutside).map(({ id }) => id));
  // A finding whose check was looked at is judged by the check.
  const isTold = (kind: FindingKind) => {
    const line = checks.find(({ id }) => id === CHECK_OF[kind]);
    if (line === undefined || (line.measured === null && line.state === "cannot-tell")) return false;
    return kind !== "pump-performance" || outside.has(line.id);
  };
  return { checks, others: broken.filter((kind) => !isTold(kind)) };
}

/** The check that stands for a finding; a pump may be overdrawn with its prime in order. */
const CHECK_OF: { readonly [K in FindingKind]?: AcceptanceId } = {
  "over-marked-pressure": "marked-pressure",
  cycling: "starts-per-hour",
  "short-cycles": "short-cycles",
  oscillation: "oscillation",
  drift: "drift",
  "leak-down": "leak-down",
  "pump-performance": "prime",
};

/** Whether a value lies outside its limit, be it for certain or not. */
export const isOutside = ({ measured, limit, state }: AcceptanceLine): boolean =>
  state === "not-met" || (measured !== null && limit !== null && !isInside(measured.value, limit));

function judgeCheck(check: DigestCheck, sheet: DigestSheet, today: SiteFacts): AcceptanceLine {
  const { id, low, high, measured, state, isOwn } = check;
  const asKept = low === null && high === null ? null : ({ low, high, from: isOwn ? "given" : "practice" } as const);
  const kept = cannotTell(id, "log-longer", asKept, measured);
  if (id === "within-band" && !sheet.isOwnBand && isOtherBand(sheet.bandPa, today)) return cannotTell(id, "log-longer", asKept);
  if (isOwn || COMPANY_CHECKS[id] === undefined) return { ...kept, state };
  if (id === "short-cycles") return judgeShort(check, sheet, today);
  const limit = limitOfToday(id, sheet, today);
  if (limit === "as-kept") return { ...kept, state };
  return limit === null || measured === null ? { ...kept, limit } : judge(id, limit, measured);
}

const isOtherBand = (bandPa: number | null, { limits: { band } }: SiteFacts): boolean =>
  bandPa !== null && Math.abs(band.value - bandPa) > SAME * band.value;

/** Null: no limit is known; "as-kept": the usual limit comes from facts that only the visit itself knows. */
function limitOfToday(id: AcceptanceId, { allowedStarts }: DigestSheet, { limits }: SiteFacts): AcceptanceLimit | null | "as-kept" {
  const most = (fact: Fact<number> | null, usual: number | null): AcceptanceLimit | null =>
    fact !== null ? atMost(fact.value, "company") : usual === null ? null : atMost(usual, "practice");
  switch (id) {
    case "within-band":
      return atLeast(limits.shareWithinBand?.value ?? LEAST_WITHIN_BAND, "company");
    case "worst-dip":
      return limits.worstDip === null ? "as-kept" : atMost(limits.worstDip.value, "company");
    case "starts-per-hour":
      return most(limits.startsPerHour, allowedStarts);
    case "drift":
      return most(limits.driftAtSteadyFlow, null);
    case "oscillation":
      return most(limits.oscillationPeakToPeak, null);
    case "sensor-distance":
      return most(limits.sensorToTank, SENSOR_WITHIN);
    default:
      return "as-kept";
  }
}

/** Under another limit the shortest run tells whether any is short; how many there are is not known without the log. */
function judgeShort({ id, state, measured }: DigestCheck, sheet: DigestSheet, today: SiteFacts): AcceptanceLine {
  const none = atMost(0, "company");
  const limit = today.shortCycleLimit.value;
  const { shortestRunS, shortLimitS } = sheet;
  if (measured === null || limit === shortLimitS) return { ...cannotTell(id, "log-faster", none, measured), state };
  if (shortestRunS === null || shortestRunS >= limit) return judge(id, none, exactly(0));
  return { ...cannotTell(id, "log-faster", none), state: "not-met", wouldTell: null };
}
