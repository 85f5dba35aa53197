import type { CauseId } from "./cause";
import type { Numbers } from "./observation";

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

/** Amounts that can be worked out for a site; each has its name, formula and source in shared/wording/advice.ts. */
export const AMOUNT_IDS = [
  "tank-volume-by-practice",
  "tank-volume-by-run-time",
  "tank-volume-by-starts",
  "precharge-by-practice",
  "precharge-by-switch-practice",
  "precharge-now-by-gas-law",
  "compliance-at-ends",
  "stored-water-at-ends",
  "sensor-distance-by-practice",
  "surge-period-now",
  "surge-period-moved",
  "run-time-now",
  "loop-gain-ratio",
  "loop-gain-slow-ratio",
  "sleep-delay",
  "leak-per-day",
  "scale-ratio",
  "pump-flow-needed",
  "pressure-margin",
  "demand-period",
] as const;
export type AmountId = (typeof AMOUNT_IDS)[number];

/** Names of what goes into a formula. */
export const INPUT_IDS = [
  "set-pressure",
  "cut-in",
  "cut-out",
  "restart-pressure",
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
  "peak-to-peak",
  "limit",
  "cycle",
  "leak",
  "highest",
  "marked",
  "peak-flow",
  "drift",
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
    readonly from: "given" | "assumed" | "log";
  }[];
};

/** A sentence by id with the numbers it needs, SI. */
export type Said<Id extends string> = { readonly id: Id; readonly numbers: Numbers };

/** Which of two differing amounts to trust and why. */
export const TRUST_IDS = [
  "volume-practice-larger",
  "volume-physics-larger",
  "volumes-agree",
  "fixed-speed-physics",
  "precharge-upper-end",
  "precharge-lower-end",
  "precharge-no-drift-known",
  "distance-period-decides",
] as const;
export type TrustId = (typeof TRUST_IDS)[number];

/** Expected effects from closed forms. */
export const EXPECT_IDS = [
  "starts-fall-by-volume",
  "starts-fall-by-charge",
  "softer-but-less-water",
  "stiffer-but-more-water",
  "period-shrinks",
  "pressure-steadier",
  "leak-stops",
  "nothing-computed",
] as const;
export type ExpectId = (typeof EXPECT_IDS)[number];

export type Advice = {
  readonly id: AdviceId;
  readonly answers: readonly CauseId[];
  readonly step: "look" | "measure" | "change" | "bring";
  /** By common practice and by physics, side by side; empty where the step has no amount. */
  readonly amounts: readonly Amount[];
  /** Which of two differing amounts to trust and why; null where there is nothing to choose. */
  readonly trust: Said<TrustId> | null;
  /** Expected effect with its spread; null where nothing can be said. */
  readonly expect: Said<ExpectId> | null;
  /** The cause it answers with its confidence in `numbers`, or what the log showed. Written by sayAdvice. */
  readonly because: Numbers;
  /** Where the rule comes from: "Boyle's law", "common practice, no source". */
  readonly sources: readonly string[];
  readonly cautions: readonly CautionId[];
};
