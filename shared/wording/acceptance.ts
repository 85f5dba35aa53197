import type { AcceptanceId, AcceptanceLimit, AcceptanceLine, LimitOrigin, WouldTellId } from "../findings/acceptance";
import { formatMeasured, formatQuantity, formatRange, type Shown } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";
import { PRACTICE } from "./source";

export const ACCEPTANCE_NAMES: { readonly [K in AcceptanceId]: string } = {
  "marked-pressure": "Highest pressure against the tank's marked pressure",
  "within-band": "Running time with pressure within the band",
  "worst-dip": "Worst dip when a draw begins",
  "starts-per-hour": "Most starts in any hour",
  "short-cycles": "Runs shorter than the limit",
  drift: "Largest drift at steady flow",
  oscillation: "Height of the oscillation, crest to trough",
  "tank-volume": "Tank volume against the pump",
  precharge: "Precharge against set pressure",
  "sensor-distance": "Sensor's distance from the tank",
  "sensor-scaling": "Recorded pressure over what the facts say",
  "full-speed-head": "Pressure at full speed and little flow",
  prime: "Times the pump lost its prime",
  "leak-down": "Leak-down",
};

export const STATE_WORDS: { readonly [K in AcceptanceLine["state"]]: string } = {
  met: "Met",
  "not-met": "Not met",
  "cannot-tell": "Cannot tell",
};
const ORIGINS: { readonly [K in LimitOrigin]: string } = {
  given: "site facts",
  company: "company limit",
  assumed: "assumed",
  practice: PRACTICE,
};

const WOULD_TELL: { readonly [K in WouldTellId]: string } = {
  "log-pressure": "a log of the pressure",
  "log-pump-state": "a log of drive speed, motor current or a running contact",
  "log-flow": "a log of the flow meter",
  "log-faster": "a faster log",
  "log-longer": "a longer log",
  "give-set-pressure": "the set pressure, under site facts",
  "give-marked-pressure": "the pressure marked on the tank, under site facts",
  "give-starts-limit": "a limit of starts per hour or the motor's power, under site facts",
  "give-tank-volume": "the tank's volume, under site facts",
  "give-pump-flow": "the pump's rated flow, under site facts",
  "give-precharge": "the precharge, read with the pump locked off and the water side empty",
  "give-sensor-distance": "the distance from sensor to tank, under site facts",
  "draw-steadily": "a steady draw of some minutes while flow is logged",
  "dead-head-test":
    "a short run at full speed against a closed valve, as far as the pump's instructions allow it, and the pump's rated flow",
};
export const sayWouldTell = (id: WouldTellId): string => WOULD_TELL[id];

/** "at most 3.0 psi (assumed)". */
export const sayLimit = (limit: AcceptanceLimit, shown: Shown, units: UnitChoice): string =>
  `${sayBounds(limit, shown, units)} (${ORIGINS[limit.from]})`;

/** "at most 3.0 psi". */
export function sayBounds({ low, high }: Pick<AcceptanceLimit, "low" | "high">, shown: Shown, units: UnitChoice): string {
  if (low !== null && high !== null) return formatRange(low, high, shown, units);
  if (low !== null) return `at least ${formatQuantity(low, shown, units, 2)}`;
  return high === 0 ? "none" : `at most ${formatQuantity(high ?? 0, shown, units, 2)}`;
}

export const sayMeasured = ({ measured, shown }: AcceptanceLine, units: UnitChoice): string =>
  measured === null
    ? "not known"
    : measured.low === measured.high
      ? formatQuantity(measured.value, shown, units)
      : formatMeasured(measured, shown, units);

/** Words of the acceptance sheet and of the company's limits. */
export const ACCEPTANCE_WORDS = {
  intro:
    "Limits come from the site facts where they are given there, else from your company; otherwise they are assumed or usual in the trade, and marked so. This sheet clears nothing for safety: local codes and the equipment's own instructions come first.",
  heads: ["Check", "Limit", "Measured", "Verdict"],
  note: "In brackets: 95\u202f% intervals, and where a limit comes from. Met: the whole interval keeps the limit; not met: all of it lies outside. This sheet clears nothing for safety.",
  noLimit: "no limit known",
  wouldTell: (what: string) => `. What would tell: ${what}`,
  otherLimits: "Limits of another day",
  otherLimitsWhy:
    "This visit was kept under other limits of your company than those of today; the sheet below shows it under those of then.",
  takeLimitsOfToday: "Hold it against the limits of today",
  company: "Limits of your company",
  companyIntro:
    "They hold wherever a site states no limit of its own, in findings, acceptance, before and after and the report, for this visit and those to come. A kept visit keeps the limits it was held against until you hold it against those of today; the round always shows those of today.",
  readCompany: "Read company limits from a file",
  saveCompany: "Save company limits as a file",
  companyFile: "File of company limits",
} as const;
