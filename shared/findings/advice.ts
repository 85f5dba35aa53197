import type { SourceId } from "../wording/source";
import type { CauseId, Reason } from "./cause";
import type { Numbers } from "./observation";
import type { Change, PredictedMeasures, WhatIfWarning } from "./what-if";

export const CAUTION_IDS = [
  "local-codes-first",
  "qualified-people",
  "isolate-power",
  "wait-for-stored-energy",
  "relieve-water-first",
  "marked-pressure",
  "frost",
  "drinking-water",
  "relief-valve-stays",
  "equipment-instructions",
  "rotating-parts",
] as const;
export type CautionId = (typeof CAUTION_IDS)[number];

export const ADVICE_IDS = [
  "stop-over-marked-pressure",
  "check-precharge",
  "raise-precharge",
  "lower-precharge",
  "larger-tank",
  "replace-tank",
  "move-sensor",
  "calm-sensor-place",
  "clear-sensor-port",
  "protect-sensor-from-frost",
  "check-sensor-scaling",
  "lower-loop-gain",
  "raise-loop-gain",
  "lengthen-sleep-delay",
  "find-leak",
  "check-check-valve",
  "restore-prime",
  "check-pump-direction",
  "check-pump-size",
  "look-for-periodic-demand",
  "log-more",
  "nothing-to-change",
] as const;
export type AdviceId = (typeof ADVICE_IDS)[number];

/** Amounts that can be worked out for a site; each has its name, formula and source in shared/wording/amount.ts. */
export const AMOUNT_IDS = [
  "tank-volume-by-practice",
  "tank-volume-by-run-time",
  "tank-volume-by-starts",
  "precharge-by-practice",
  "precharge-by-switch-practice",
  "precharge-now",
  "softness-lower-setting",
  "softness-higher-setting",
  "stored-water-lower-setting",
  "stored-water-higher-setting",
  "sensor-distance-by-practice",
  "surge-period-now",
  "surge-period-moved",
  "gain-ratio-by-practice",
  "gain-ratio-by-margin",
  "gain-raise-by-practice",
  "sleep-delay-by-practice",
  "sleep-delay-by-run-time",
  "leak-per-day",
  "scale-ratio",
  "pump-flow-needed",
  "over-marked",
  "demand-period",
] as const;
export type AmountId = (typeof AMOUNT_IDS)[number];

/** Names of what goes into a formula. */
export const INPUT_IDS = [
  "set-pressure",
  "cut-in",
  "cut-out",
  "precharge",
  "tank-volume",
  "pump-flow",
  "run-time",
  "starts-per-hour",
  "air-pressure",
  "gas-constant",
  "sensor-distance",
  "pipe-bore",
  "period",
  "leak",
  "highest",
  "marked",
  "peak-flow",
  "ratio",
] as const;
export type InputId = (typeof INPUT_IDS)[number];

export type AmountQuantity =
  | "gaugePressure"
  | "absolutePressure"
  | "pressureDifference"
  | "volume"
  | "length"
  | "time"
  | "ratio"
  | "flow"
  | "count"
  | "perHour"
  | "volumePerDay"
  | "fraction"
  | "energy"
  | "compliance";

/** An amount worked out for this site, with what went into it. SI; low and high are the range to aim for. */
export type Amount = {
  readonly id: AmountId;
  readonly quantity: AmountQuantity;
  readonly low: number;
  readonly high: number;
  readonly basis: "common practice" | "physics";
  readonly inputs: readonly {
    readonly name: InputId;
    readonly quantity: AmountQuantity;
    readonly value: number;
    /** "practice": not a fact of the site but the setting that common practice asks for here. */
    readonly from: "given" | "company" | "assumed" | "log" | "practice" | "model";
  }[];
};

/** A sentence by id with the numbers it needs, SI. */
export type Said<Id extends string> = { readonly id: Id; readonly numbers: Numbers };

/** Which of two differing amounts to trust and why. */
export const TRUST_IDS = [
  "volumes-agree",
  "volume-drive",
  "volume-switch",
  "volume-practice-only",
  "precharge-higher-setting",
  "precharge-lower-setting",
  "precharge-drift-unknown",
  "precharge-switch",
  "distance-period-decides",
  "gain-physics",
] as const;
export type TrustId = (typeof TRUST_IDS)[number];

/** Expected effects from closed forms. */
export const EXPECT_IDS = ["cycle-longer", "softer-but-less-water", "stiffer-but-more-water", "period-shrinks", "leak-stops"] as const;
export type ExpectId = (typeof EXPECT_IDS)[number];

/** What the model fitted to the log says that a step would do here, on the measures that a site is judged by. */
export type Effect = {
  readonly changes: readonly Change[];
  readonly now: PredictedMeasures;
  readonly after: PredictedMeasures;
  readonly warnings: readonly WhatIfWarning[];
};

export type Advice = {
  readonly id: AdviceId;
  readonly answers: readonly CauseId[];
  readonly step: "look" | "measure" | "change" | "bring";
  /** By common practice and by physics, side by side; empty where the step has no amount. */
  readonly amounts: readonly Amount[];
  /** Which of two differing amounts to trust and why; null where there is nothing to choose. */
  readonly trust: Said<TrustId> | null;
  /** Expected effect from closed forms, with its spread; null where nothing can be said. */
  readonly expect: Said<ExpectId> | null;
  /** The same from the fitted model; null until it is asked for, and where it has nothing to say. */
  readonly effect: Effect | null;
  /** What it rests on: the cause it answers with its confidence and strongest reason; all null where a limit of the site was passed. */
  readonly because: { readonly cause: CauseId | null; readonly confidence: number | null; readonly reason: Reason | null };
  /** Where the rule comes from. */
  readonly sources: readonly SourceId[];
  readonly cautions: readonly CautionId[];
};
