import {
  type CannotCompareId,
  type ComparedMeasure,
  type ComparedVisits,
  type Comparison,
  MEASURE_IDS,
  type MeasureId,
  type NamedMeasures,
  type PressureProfile,
  type VisitMeasures,
} from "../../shared/findings/comparison";
import type { Measured } from "../../shared/units/measured";
import { type Random, seededRandom } from "../numerics/random";
import { type Match, matchDemand, NO_MATCH } from "./demand-match";
import { differenceOf, type Estimate, estimateMedian, estimateRatio, intervalOf, otherUse, type Ratio, SHARE, SIZE, sum } from "./estimate";
import { matchHours } from "./hour-match";
import { type Hidden, hiddenBetween, type LikeSums, likeForLike, startsAreUnsure } from "./like-for-like";
import { keepsLimit, overallVerdict, verdictOf } from "./verdict";

const DAY = 86400;
const HOUR = 3600;

/** One of the two visits as it is compared. */
type Side = { readonly visit: VisitMeasures; readonly sums: LikeSums; readonly weights: readonly number[] | null };
type Pair = {
  readonly before: Side;
  readonly after: Side;
  readonly hidden: Hidden;
  readonly random: Random;
  /** Whether the flow of both made the use alike. */
  readonly isLikeUse: boolean;
};

/**
 * Two visits of one site on the same measures, with block-bootstrap intervals, weighed to a like demand where both logged flow, else to the
 * same hours of the day.
 * The limits are those of the later visit. Nothing the slower logger could not have seen is held against the faster one.
 */
export function compareVisits(before: VisitMeasures, after: VisitMeasures, seed = 1): Comparison {
  const match: Match = matchDemand(drawnPerSecond(before), drawnPerSecond(after)) ?? matchHours(before, after) ?? NO_MATCH;
  const hidden = hiddenBetween(before, after);
  const pair: Pair = {
    before: { visit: before, sums: likeForLike(before, hidden), weights: match.before },
    after: { visit: after, sums: likeForLike(after, hidden), weights: match.after },
    hidden,
    random: seededRandom(seed),
    isLikeUse: match.by === "demand",
  };
  const measures = MEASURE_IDS.map((id) => compareMeasure(id, pair));
  return {
    measures,
    overall: overallVerdict(measures),
    matchedBy: match.by,
    matchedShare: match.share,
    hiddenBelowPeriodS: hidden.periodS,
    hiddenRunsBelowS: hidden.runS,
  };
}

/** Two visits compared, with their names and what lays them over one another. */
export function comparedVisits(before: NamedMeasures, after: NamedMeasures): ComparedVisits {
  const both = (of: (visit: VisitMeasures) => PressureProfile | null) => {
    const [a, b] = [of(before.measures), of(after.measures)];
    return a === null || b === null ? null : ([a, b] as const);
  };
  return {
    comparison: compareVisits(before.measures, after.measures),
    beforeName: before.name,
    afterName: after.name,
    days: both(({ days }) => days),
    cycles: both(({ cycles }) => cycles),
  };
}

/** Blocks of the two visits may differ in length: what is drawn is compared as a flow. */
const drawnPerSecond = ({ blocks, blockS }: VisitMeasures) => blocks.drawn?.map((volume) => volume / blockS) ?? null;

function compareMeasure(id: MeasureId, pair: Pair): ComparedMeasure {
  const { before, after, random } = pair;
  const limit = after.visit.limits[id];
  const because = whyNot(id, pair);
  if (because !== null) return { id, before: null, after: null, difference: null, limit, verdict: "cannot-compare", because };
  const [a, b] = [estimate(id, before, pair.hidden, random), estimate(id, after, pair.hidden, random)];
  const unseen = ({ visit }: Side, { value }: Estimate) => (pair.isLikeUse ? 0 : otherUse(movedByUse(id, value), daysOf(visit)));
  const difference = differenceOf(a, b, Math.hypot(unseen(before, a), unseen(after, b)));
  const bounds = isShare(id) ? SHARE : SIZE;
  const [was, is] = [intervalOf(a, bounds), intervalOf(b, bounds)];
  // A limit of "at most in any hour" is met only where the busiest hour keeps it, not the mean.
  const mayMeet = id !== "starts-per-hour" || limit === null || (after.visit.peakStartsPerHour ?? 0) <= limit;
  const verdict = isTold(id, pair, was, limit) ? verdictOf(id, is, difference, limit, mayMeet) : "no-change-shown";
  return { id, before: was, after: is, difference, limit, verdict, because: null };
}

const isShare = (id: MeasureId): boolean => id === "oscillating-share" || id === "share-within-band";

const daysOf = ({ blockS, blocks }: VisitMeasures): number => (blockS * blocks.starts.length) / DAY;

/** How much of a measure goes with the use: starts do, and of a share the rarer part; how high a wave is or how far a draw drifts does not. */
function movedByUse(id: MeasureId, value: number): number {
  if (isShare(id)) return Math.min(value, 1 - value);
  return id === "starts-per-hour" || id === "short-cycles-per-day" ? value : 0;
}

/** That nothing oscillates in one of two records tells of a change only where the share of oscillating time differs beyond its own chance. */
function isTold(id: MeasureId, { before, after, hidden, random }: Pair, was: Measured, limit: number | null): boolean {
  if (id !== "oscillation-height") return true;
  const shows = ({ visit }: Side) => heights(visit, hidden).length > 0;
  if (shows(before) === shows(after) || (shows(before) && keepsLimit(id, was, limit))) return true;
  const share = differenceOf(estimate("oscillating-share", before, hidden, random), estimate("oscillating-share", after, hidden, random));
  return share.low > 0 || share.high < 0;
}

const heights = ({ episodes }: VisitMeasures, { periodS }: Hidden): readonly number[] =>
  episodes.filter((e) => e.periodS >= (periodS ?? 0)).map((e) => e.heightPa);

/** Least time of evidence for a rate, s. */
const LEAST_EVIDENCE = 1800;
/** Band and limit of short runs are the same where they differ by no more than this share: they are written in different units. */
const SAME = 0.01;

function whyNot(id: MeasureId, { before, after, hidden }: Pair): CannotCompareId | null {
  const differ = (of: (visit: VisitMeasures) => number | null) => {
    const [a, b] = [of(before.visit), of(after.visit)];
    return a !== null && b !== null && Math.abs(a - b) > SAME * Math.max(a, b);
  };
  const evidence = (of: (sums: LikeSums) => readonly number[], none: CannotCompareId): CannotCompareId | null => {
    const least = Math.min(sum(of(before.sums)), sum(of(after.sums)));
    if (least < LEAST_EVIDENCE) return least === 0 ? none : "too-short";
    const alike = ({ sums, weights }: Side) => sum(of(sums).filter((_, i) => weights === null || weights[i] > 0));
    return Math.min(alike(before), alike(after)) < LEAST_EVIDENCE ? "other-hours" : null;
  };
  const isPumpHidden =
    hidden.runS === Number.POSITIVE_INFINITY || startsAreUnsure(before.visit, hidden) || startsAreUnsure(after.visit, hidden);
  switch (id) {
    case "starts-per-hour":
      return isPumpHidden ? "sampling-hides-it" : evidence((s) => s.pumpKnown, "no-pump-state");
    case "short-cycles-per-day": {
      const unknown = evidence((s) => s.pumpKnown, "no-pump-state");
      if (unknown !== null) return unknown;
      if (
        isPumpHidden ||
        before.sums.shortCycles === null ||
        after.sums.shortCycles === null ||
        (hidden.runS ?? 0) >= after.visit.shortLimitS
      )
        return "sampling-hides-it";
      return differ((v) => v.shortLimitS) ? "limits-differ" : null;
    }
    case "oscillating-share":
    case "oscillation-height":
      return evidence((s) => s.lookedAt, "sampling-hides-it");
    case "share-within-band":
      // Read off the pressure, the time that counts as running depends on the sampling, and with it the share.
      if (hidden.runS !== null && (before.visit.runsFromPressure || after.visit.runsFromPressure)) return "sampling-hides-it";
      return evidence((s) => s.tracked, "no-set-pressure") ?? (differ((v) => v.bandPa) ? "limits-differ" : null);
    case "drift-at-steady-flow":
      return before.visit.driftsPa.length === 0 || after.visit.driftsPa.length === 0 ? "no-steady-draw" : null;
  }
}

function estimate(id: MeasureId, { visit, sums, weights }: Side, hidden: Hidden, random: Random): Estimate {
  const ratio = (order: Ratio) => estimateRatio(order, visit.blockS, weights, random);
  switch (id) {
    case "starts-per-hour":
      return ratio({ top: sums.starts, bottom: sums.pumpKnown, per: HOUR, counted: true });
    case "short-cycles-per-day":
      return ratio({ top: sums.shortCycles ?? [], bottom: sums.pumpKnown, per: DAY, counted: true });
    case "oscillating-share":
      return ratio({ top: sums.oscillating, bottom: sums.lookedAt, per: 1, counted: false });
    case "share-within-band":
      return ratio({ top: sums.withinBand, bottom: sums.tracked, per: 1, counted: false });
    case "oscillation-height":
      return estimateMedian(heights(visit, hidden), random);
    case "drift-at-steady-flow":
      return estimateMedian(visit.driftsPa.map(Math.abs), random);
  }
}
