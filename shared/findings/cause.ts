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

/** One observation that spoke for or against a cause, with its log-likelihood ratio. */
export type Reason = { readonly id: string; readonly weight: number; readonly numbers: Readonly<Record<string, number | string>> };

export type Cause = {
  readonly id: CauseId;
  /** Over all causes these sum to 1. */
  readonly confidence: number;
  readonly for: readonly Reason[];
  readonly against: readonly Reason[];
  /** The check, fact or channel that best parts this cause from its rival, with what each outcome would mean; null for a cause far down. */
  readonly toSeparate: { readonly check: string; readonly rival: CauseId; readonly gainBits: number } | null;
};
