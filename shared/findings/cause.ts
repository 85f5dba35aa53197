import type { Level, Numbers, ObservationId } from "./observation";

/** Causes that compete to explain a log; the list is complete and "healthy" is one of them. */
export const CAUSE_IDS = [
  "tank-too-small",
  "precharge-low",
  "precharge-high",
  "tank-waterlogged",
  "sensor-far-from-tank",
  "sensor-in-turbulence",
  "sensor-port-plugged",
  "sensor-frozen-or-stuck",
  "sensor-scaling-wrong",
  "loop-too-aggressive",
  "loop-too-slow",
  "leak-or-check-valve",
  "demand-is-periodic",
  "sleep-settings-hunting",
  "loss-of-prime",
  "pump-turning-backwards-or-weak",
  "undersized-pump-or-overdraw",
  "healthy",
] as const;
export type CauseId = (typeof CAUSE_IDS)[number];

/** Hands-on checks, facts to ask for and channels to log that can part two causes. Sentences in shared/wording/reason.ts. */
export const CHECK_IDS = [
  "read-precharge",
  "press-air-valve",
  "read-tank-plate",
  "measure-sensor-distance",
  "compare-second-gauge",
  "close-system-valve",
  "watch-check-valve",
  "open-sensor-port",
  "feel-for-frost",
  "read-input-settings",
  "halve-loop-gain",
  "double-loop-gain",
  "lengthen-sleep-delay",
  "check-direction",
  "dead-head-test",
  "vent-and-listen",
  "watch-meter-all-off",
  "walk-the-consumers",
  "move-sensor-for-a-day",
  "log-flow",
  "log-speed",
  "log-faster",
  "log-longer",
  "log-second-pressure",
  "log-temperature",
  "give-set-pressure",
  "give-tank-volume",
  "give-pump-flow",
] as const;
export type CheckId = (typeof CHECK_IDS)[number];

/** One observation that spoke for or against a cause, with its log-likelihood ratio against a site that nothing is known of. */
export type Reason = { readonly id: ObservationId; readonly level: Level; readonly weight: number; readonly numbers: Numbers };

/** What the check may show, and which of the two causes it then points to. */
export type CheckOutcome = { readonly shows: string; readonly pointsTo: CauseId };

export type ToSeparate = {
  readonly check: CheckId;
  readonly cause: CauseId;
  readonly rival: CauseId;
  /** Expected gain of information between the two, bits: 1 would settle it. */
  readonly gainBits: number;
  readonly outcomes: readonly CheckOutcome[];
};

export type Cause = {
  readonly id: CauseId;
  /** Over all causes these sum to 1. */
  readonly confidence: number;
  /** Strongest first. */
  readonly for: readonly Reason[];
  readonly against: readonly Reason[];
  /** The check, fact or channel that best parts this cause from its rival, with what each outcome would mean; null for a cause far down. */
  readonly toSeparate: ToSeparate | null;
};
