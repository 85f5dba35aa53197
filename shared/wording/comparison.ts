import type { CannotCompareId, MeasureId, Verdict } from "../findings/comparison";
import type { Shown } from "../units/format-quantity";

export const MEASURES: { readonly [K in MeasureId]: { readonly name: string; readonly shown: Shown } } = {
  "starts-per-hour": { name: "Starts per hour", shown: "perHour" },
  "short-cycles-per-day": { name: "Short cycles per day", shown: "ratio" },
  "oscillating-share": { name: "Share of running time that oscillates", shown: "fraction" },
  "oscillation-height": { name: "Height of the oscillation, crest to trough", shown: "pressureDifference" },
  "drift-at-steady-flow": { name: "Drift at steady flow", shown: "pressureDifference" },
  "share-within-band": { name: "Share of running time within the band", shown: "fraction" },
};

export const VERDICT_WORDS: { readonly [K in Verdict]: string } = {
  met: "Met",
  "better-but-not-met": "Better, but not met",
  better: "Better (no limit set)",
  "no-change-shown": "No change shown",
  worse: "Worse",
  "cannot-compare": "Cannot compare",
};

export const WHY_NOT_COMPARED: { readonly [K in CannotCompareId]: string } = {
  "no-pump-state": "one of the logs does not show when the pump ran",
  "no-pressure": "one of the logs has no pressure",
  "no-set-pressure": "the set pressure is not known for one of the visits",
  "no-steady-draw": "one of the logs holds no steady draw",
  "too-short": "one of the logs is too short",
  "sampling-hides-it": "one of the logs is sampled too slowly to show it",
};
