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

/** What to check by hand, ask for or log in order to part two causes. Sentences in shared/wording/cause.ts. */
export const CHECK_IDS = [
  "read-precharge",
  "press-air-valve",
  "measure-sensor-distance",
  "compare-second-gauge",
  "shut-system-valve",
  "open-sensor-port",
  "feel-for-frost",
  "read-input-settings",
  "halve-loop-gain",
  "double-loop-gain",
  "lengthen-sleep-delay",
  "check-direction",
  "shut-in-test",
  "listen-for-air",
  "walk-the-consumers",
  "log-flow",
  "log-speed",
  "log-faster",
  "log-longer",
  "log-second-pressure",
  "log-temperature",
  "ask-set-pressure",
  "ask-tank-volume",
  "ask-precharge",
  "ask-pump-flow",
  "ask-pipe",
] as const;
export type CheckId = (typeof CHECK_IDS)[number];

/** What a check by hand may show. */
export const RESULT_IDS = [
  "charge-low",
  "charge-right",
  "charge-high",
  "water-at-valve",
  "only-air",
  "distance-short",
  "distance-long",
  "gauges-agree",
  "gauges-differ",
  "second-gauge-quicker",
  "pressure-holds",
  "pressure-falls",
  "port-clear",
  "port-choked",
  "ice-found",
  "no-ice",
  "settings-match",
  "settings-differ",
  "swing-smaller",
  "swing-same",
  "dips-smaller",
  "dips-same",
  "starts-fewer",
  "starts-same",
  "direction-right",
  "direction-wrong",
  "head-full",
  "head-weak",
  "air-heard",
  "no-air",
  "consumer-found",
  "no-consumer",
] as const;
export type ResultId = (typeof RESULT_IDS)[number];

/** One observation that spoke for or against a cause, with its log-likelihood ratio against a site that nothing is known of. */
export type Reason = { readonly id: ObservationId; readonly level: Level; readonly weight: number; readonly numbers: Numbers };

/** What the check may show, and which of the two causes it then points to. */
export type CheckOutcome = {
  readonly shows:
    | { readonly kind: "result"; readonly result: ResultId }
    | { readonly kind: "answer"; readonly id: ObservationId; readonly level: Level };
  readonly pointsTo: CauseId;
};

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
  /**
   * Chance, 0 to 1, that this cause holds as well as the first one: only observations in which the first has no say count. Null for the
   * first, for healthy, and where healthy comes first.
   */
  readonly besideFirst: number | null;
  /** Strongest first. */
  readonly for: readonly Reason[];
  readonly against: readonly Reason[];
  /** The check, fact or channel that best parts this cause from its rival, with what each outcome would mean; null for a cause far down. */
  readonly toSeparate: ToSeparate | null;
};
