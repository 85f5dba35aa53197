import type { Shown } from "../units/format-quantity";
import type { Measured } from "../units/measured";

/** What is checked after installation, one line each; the list is complete and in the order of the sheet, safety first. */
export const ACCEPTANCE_IDS = [
  "marked-pressure",
  "within-band",
  "worst-dip",
  "starts-per-hour",
  "short-cycles",
  "drift",
  "oscillation",
  "tank-volume",
  "precharge",
  "sensor-distance",
  "sensor-scaling",
  "full-speed-head",
  "prime",
  "leak-down",
] as const;
export type AcceptanceId = (typeof ACCEPTANCE_IDS)[number];

/** What the value of each check is, and so the unit it is shown in. */
export const ACCEPTANCE_SHOWN: { readonly [K in AcceptanceId]: Shown } = {
  "marked-pressure": "gaugePressure",
  "within-band": "fraction",
  "worst-dip": "pressureDifference",
  "starts-per-hour": "count",
  "short-cycles": "count",
  drift: "pressureDifference",
  oscillation: "pressureDifference",
  "tank-volume": "volume",
  precharge: "gaugePressure",
  "sensor-distance": "length",
  "sensor-scaling": "ratio",
  "full-speed-head": "gaugePressure",
  prime: "count",
  "leak-down": "flow",
};

/** Where a limit comes from: the site facts, the company, an assumption for want of one, or what is usual in the trade. */
export type LimitOrigin = "given" | "company" | "assumed" | "practice";

/** Between what a value must lie, SI; null on a side without a limit. */
export type AcceptanceLimit = { readonly low: number | null; readonly high: number | null; readonly from: LimitOrigin };

/** What would tell where the log and the facts do not; sentences in shared/wording/acceptance.ts. */
export const WOULD_TELL_IDS = [
  "log-pressure",
  "log-pump-state",
  "log-flow",
  "log-faster",
  "log-longer",
  "give-set-pressure",
  "give-marked-pressure",
  "give-starts-limit",
  "give-tank-volume",
  "give-pump-flow",
  "give-precharge",
  "give-sensor-distance",
  "draw-steadily",
  "dead-head-test",
] as const;
export type WouldTellId = (typeof WOULD_TELL_IDS)[number];

export type AcceptanceLine = {
  readonly id: AcceptanceId;
  readonly shown: Shown;
  readonly limit: AcceptanceLimit | null;
  /** With its 95 % interval; both ends equal where it is a reading or a count. Null where nothing was measured. */
  readonly measured: Measured | null;
  readonly state: "met" | "not-met" | "cannot-tell";
  readonly wouldTell: WouldTellId | null;
};
