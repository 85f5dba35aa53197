import * as v from "valibot";
import { ACCEPTANCE_IDS, type AcceptanceId, type AcceptanceLine } from "../../shared/findings/acceptance";
import type { KeptFindings } from "../../shared/schemas/visit-parts";
import type { CompanyLimit } from "../../shared/site/company-limits";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import type { Measured } from "../../shared/units/measured";
import { numberIn, valueIn } from "./in-findings";

/** One check: between what its value must lie, what was measured (SI), and whether the site states the limit itself. */
export type DigestCheck = {
  readonly id: AcceptanceId;
  readonly state: AcceptanceLine["state"];
  readonly measured: Measured | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly isOwn: boolean;
};

export type DigestSheet = {
  readonly checks: readonly DigestCheck[];
  /** Half-width of the band that the share within it was counted for, Pa, and whether the site states it. */
  readonly bandPa: number | null;
  readonly isOwnBand: boolean;
  /** Starts per hour that the motor can stand, and the shortest complete run, s. */
  readonly allowedStarts: number | null;
  readonly shortestRunS: number | null;
  readonly shortLimitS: number;
};

const bound = v.optional(v.nullable(v.number()), null);
const sheetSchema = v.array(
  v.looseObject({
    id: v.string(),
    state: v.picklist(["met", "not-met", "cannot-tell"]),
    limitLow: bound,
    limitHigh: bound,
    measured: v.optional(v.nullable(v.object({ value: v.number(), low: v.number(), high: v.number() })), null),
  }),
);

/** The sheet out of a findings document; null where it has none. */
export function sheetOf(findings: KeptFindings): DigestSheet | null {
  const { output, success } = v.safeParse(sheetSchema, "acceptance" in findings ? findings.acceptance : null);
  if (!success) return null;
  const checks = output.flatMap(({ id, state, measured, limitLow: low, limitHigh: high }): readonly DigestCheck[] => {
    const known = ACCEPTANCE_IDS.find((one) => one === id);
    return known === undefined ? [] : [{ id: known, state, measured, low, high, isOwn: isOwnLimit(findings, COMPANY_CHECKS[known]) }];
  });
  if (checks.length === 0) return null;
  return {
    checks,
    bandPa: numberIn(findings, "tracking", "bandPa"),
    isOwnBand: isOwnLimit(findings, "limits.band"),
    allowedStarts: numberIn(findings, "cycling", "allowedStartsPerHour"),
    shortestRunS: shortestRun(findings),
    shortLimitS: numberIn(findings, "cycling", "shortCycle", "limitS") ?? NO_SITE_FACTS.shortCycleLimit.value,
  };
}

/** The checks whose limit a company may set. */
export const COMPANY_CHECKS: { readonly [K in AcceptanceId]?: CompanyLimit } = {
  "within-band": "limits.shareWithinBand",
  "worst-dip": "limits.worstDip",
  "starts-per-hour": "limits.startsPerHour",
  "short-cycles": "shortCycleLimit",
  drift: "limits.driftAtSteadyFlow",
  oscillation: "limits.oscillationPeakToPeak",
  "sensor-distance": "limits.sensorToTank",
};

/** Whether the site states a limit itself: no company's comes before that. */
const isOwnLimit = (findings: KeptFindings, limit: CompanyLimit | undefined): boolean =>
  limit !== undefined && valueIn(findings, "site", ...limit.split("."), "from") === "given";

const runsSchema = v.array(
  v.looseObject({ from: v.union([v.string(), v.number()]), to: v.union([v.string(), v.number()]), complete: v.boolean() }),
);

/** The shortest complete run, s; null without any. */
function shortestRun(findings: KeptFindings): number | null {
  const { output, success } = v.safeParse(runsSchema, valueIn(findings, "running", "runs"));
  if (!success) return null;
  const seconds = (at: string | number) => (typeof at === "string" ? Date.parse(at) / 1000 : at);
  const lengths = output.flatMap(({ from, to, complete }) => (complete ? [seconds(to) - seconds(from)] : []));
  return lengths.length === 0 ? null : lengths.reduce((a, b) => Math.min(a, b));
}
