import type { CannotCompareId, Comparison, MeasureId, Verdict } from "../findings/comparison";
import { formatQuantity, type Shown } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";

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
  "limits-differ": "the two visits were held against different limits",
  "other-hours": "without flow in both, they share too few hours of the day to set use against a like use",
};

const OTHER_USE = "Flow is not known in both, so that another use of water may be behind a difference.";
/** How the hours of both visits were made alike. @param share of them, in words */
const HOW_MATCHED: { readonly [K in NonNullable<Comparison["matchedBy"]>]: (share: string) => string } = {
  demand: (share) => `Weighed to a like demand; ${share} of the hours had one to set against.`,
  hours: (share) => `${OTHER_USE} The same hours of the day are set against each other; ${share} of all hours had one to set against.`,
  days: (share) => `${OTHER_USE} The hour of the day is not known either: whole days are set against whole days, ${share} of all hours.`,
};

/** How the figures came about and what they leave out, a sentence each. */
export function sayHowCompared(
  { measures, matchedBy, matchedShare, hiddenBelowPeriodS, hiddenRunsBelowS }: Comparison,
  units: UnitChoice,
): readonly string[] {
  const lost = measures.filter(({ verdict }) => verdict === "cannot-compare").length;
  const time = (s: number) => formatQuantity(s, "time", units, 2);
  return [
    "In brackets: 95\u202f% intervals by block bootstrap over hours, or over days where both records are long enough.",
    matchedBy === null ? OTHER_USE : HOW_MATCHED[matchedBy](formatQuantity(matchedShare ?? 0, "fraction", units, 2)),
    ...(hiddenBelowPeriodS === null
      ? []
      : [`The slower logger could not show waves shorter than ${time(hiddenBelowPeriodS)}; these are left out of both.`]),
    ...(hiddenRunsBelowS === null || !Number.isFinite(hiddenRunsBelowS)
      ? []
      : [`It could not show runs and rests of the pump shorter than ${time(hiddenRunsBelowS)} either; these are left out of both.`]),
    ...(lost === 0 ? [] : [`${lost} of ${measures.length} measures could not be compared; the verdict rests on the others.`]),
  ];
}

/** Words of the before-and-after sheet. */
export const COMPARISON_WORDS = {
  pictureOf: (title: string, counted: string) => `${title}, pressure: ${counted}`,
  intro:
    "Where both visits logged flow, hours of like demand are set against each other, else the same hours of the day. The limits are those of the later visit.",
  before: "Before",
  after: "After",
  bringEarlier: "or bring in the log of the earlier visit",
  earlierLog: "Log of the earlier visit",
  willStand:
    "Once both visits are chosen, each measure stands here before and after, with the uncertainty of its change, the days laid over one another, and a verdict: met, better but not met, no change shown, or worse.",
  choose: "choose a kept visit",
  onPage: "the visit on the page",
  broughtIn: "the log that was brought in",
  kept: (title: string, files: string, day: string) => `${title} (${files}), kept ${day}`,
  comparing: "Comparing.",
  heads: ["Measure", "Before", "After", "Difference", "Limit", "Verdict"],
  compared: (before: string, after: string) => `Before: ${before}. After: ${after}.`,
  notKnown: "not known",
  noLimit: "none",
  days: "All days laid over one another",
  cycles: "All cycles laid over one another",
  legend: "Dashed: before, between dots from the lowest to the highest in ten. Solid: after, the same shaded.",
  key: "dashed, dots: before; solid, shaded: after; middle, and lowest to highest in ten",
  counted: (before: number, after: number) => `${before} before, ${after} after`,
  pressure: (unit: string) => `Pressure, ${unit}`,
  recordGone: "The record on the page is no longer at hand. Bring the log in again.",
  notKept: "This visit is no longer kept in this browser, or cannot be read.",
  nothingToCompare: (title: string) =>
    `${title} was kept by an earlier version without its log, so it holds nothing to compare. Bring in its log instead.`,
  defect: (name: string, message: string) => `${name} met a defect of this program (${message}). Nothing on the page has changed.`,
  stopped: "Nothing was compared.",
  ofDay: "time of day",
  sinceStart: "time since the pump started",
} as const;
