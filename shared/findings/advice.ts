import type { CauseId } from "./cause";

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

/** An amount worked out for this site, with the calculation as a person would write it. SI; low and high are the range to aim for. */
export type Amount = {
  readonly of: string;
  readonly quantity: "gaugePressure" | "pressureDifference" | "volume" | "length" | "time" | "ratio" | "flow" | "count";
  readonly low: number;
  readonly high: number;
  readonly basis: "common practice" | "physics";
  /** Formula in words and symbols, and the site's own numbers put in. */
  readonly formula: string;
  readonly inputs: readonly {
    readonly name: string;
    readonly quantity: Amount["quantity"];
    readonly value: number;
    readonly from: "given" | "assumed" | "log";
  }[];
  /** Where the formula comes from: "Boyle's law", "common practice, no source". */
  readonly source: string;
};

export type Advice = {
  readonly id: AdviceId;
  readonly answers: readonly CauseId[];
  readonly step: "look" | "measure" | "change" | "bring";
  /** By common practice and by physics, side by side; empty where the step has no amount. */
  readonly amounts: readonly Amount[];
  /** Which of two differing amounts to trust and why; null where they agree. */
  readonly trust: string | null;
  /** Expected effect from the model with its spread; null where the model cannot say. */
  readonly expect: string | null;
  readonly becauseOf: string;
  readonly costOfBeingWrong: string | null;
  readonly sources: readonly string[];
  readonly cautions: readonly CautionId[];
};
