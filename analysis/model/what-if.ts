import { findingOf, type Outcome } from "../../shared/findings/finding";
import { isCannotTell, type Segments } from "../../shared/findings/segment";
import type { Change, MeasureId, PredictedSpan, Prediction, WhatIfAnswer, WhatIfWarning } from "../../shared/findings/what-if";
import type { SiteFacts } from "../../shared/site/site-facts";
import { atOneGo } from "../numerics/at-one-go";
import type { FittedSite } from "./fit";
import { sampleAt, type Trace } from "./fit/trace";
import { withChanges } from "./what-if/changes";
import { mostLikely, predictInSteps } from "./what-if/predict";

/**
 * What a change would do: the fitted site run as it is and as changed over a span of the record, with the same draw.
 * Give `now` where the site as it is has been run already.
 * @returns null where the draw is not known or the span holds no samples
 */
export const whatIf = (...of: Parameters<typeof whatIfInSteps>): WhatIfAnswer | null => atOneGo(whatIfInSteps(...of));

/** The same with a rest now and then, so that whoever waits for it can look up and stop it half-way. */
export function* whatIfInSteps(
  fitted: FittedSite,
  site: SiteFacts,
  segments: Segments,
  outcomes: readonly Outcome[],
  changes: readonly Change[],
  span: PredictedSpan,
  now: Prediction | null = null,
): Generator<undefined, WhatIfAnswer | null> {
  const options = { shortCycleLimit: site.shortCycleLimit.value };
  const asIs = now ?? (yield* predictInSteps(fitted, [], span, options));
  const after = changes.length === 0 ? asIs : yield* predictInSteps(fitted, changes, span, { ...options, swing: asIs?.swing ?? null });
  if (asIs === null || after === null) return null;
  return {
    changes,
    recorded: recordedMeasures(fitted.trace, segments, outcomes, site, span),
    now: asIs,
    after,
    warnings: [...overMarked(outcomes, site, asIs, after), ...warningsOf(fitted, changes, asIs, after)],
  };
}

const FAR = 4; // times or a quarter of what the log shows

/**
 * Pressure above the working pressure marked on the tank, anywhere in the record or in either run: comes before everything. As the site
 * stands the log is the better witness, so there the likeliest run counts; with a change all of its spread must stay below.
 */
function overMarked(outcomes: readonly Outcome[], site: SiteFacts, now: Prediction, after: Prediction): WhatIfWarning[] {
  const marked = site.tankRatedPressure?.value ?? null;
  if (marked === null) return [];
  const recorded = findingOf(outcomes, "over-marked-pressure")?.highest ?? 0;
  const ends = [
    { when: "recorded", highest: recorded },
    { when: "as-it-is", highest: now.measures["highest-pressure"].value },
    { when: "with-the-change", highest: after.measures["highest-pressure"].high },
  ] as const;
  const first = ends.find(({ highest }) => highest > marked);
  return first === undefined ? [] : [{ id: "over-marked-pressure", marked, ...first }];
}

const BELOW_CHARGE = 14e3; // Pa: pressure falls away once the tank is empty, it does not linger near its charge

/** Where the tank runs empty at the largest draws only with the change. */
function emptied(charge: { now: number; after: number }, now: Prediction, after: Prediction): WhatIfWarning[] {
  const isEmpty = (lowest: number, precharge: number) => lowest < precharge - BELOW_CHARGE;
  const lowest = after.measures["lowest-pressure"].value;
  if (isEmpty(now.measures["lowest-pressure"].value, charge.now) || !isEmpty(lowest, charge.after)) return [];
  return [{ id: "tank-runs-empty", precharge: charge.after, lowest }];
}

function warningsOf(fitted: FittedSite, changes: readonly Change[], now: Prediction, predicted: Prediction): WhatIfWarning[] {
  const before = mostLikely(fitted);
  const { frame, values } = withChanges(fitted.frame, before, changes);
  const precharge = values["gas-constant"] / values["tank-volume"] - frame.atmosphere;
  const warnings: WhatIfWarning[] = [...fitted.outside];
  const chargeNow = before["gas-constant"] / before["tank-volume"] - fitted.frame.atmosphere;
  if (fitted.parameters["tank-volume"].from !== "usual") warnings.push(...emptied({ now: chargeNow, after: precharge }, now, predicted));
  if (precharge > values["restart-pressure"])
    warnings.push({ id: "precharge-above-restart", precharge, restart: values["restart-pressure"] });
  if (
    fitted.parameters["tank-volume"].from === "usual" &&
    changes.some((change) => change.id === "precharge" || change.id === "tank-volume")
  )
    warnings.push({ id: "volume-not-known" });
  for (const change of changes) {
    const ratio = ratioOf(change, before, values);
    if (ratio !== null && (ratio > FAR || ratio < 1 / FAR)) warnings.push({ id: "far-from-what-was-seen", change });
  }
  return warnings;
}

function ratioOf(change: Change, before: ReturnType<typeof mostLikely>, after: ReturnType<typeof mostLikely>): number | null {
  if (change.id === "precharge" || change.id === "tank-volume") return after["gas-constant"] / before["gas-constant"];
  return change.id === "gain" ? change.to : null;
}

/** The same measures as the detectors found them, within the span; for the page to lay beside. */
export function recordedMeasures(
  trace: Trace,
  segments: Segments,
  outcomes: readonly Outcome[],
  site: SiteFacts,
  span: PredictedSpan,
): Readonly<Record<MeasureId, number | null>> {
  const hours = (span.to - span.from) / 3600;
  const inSpan = (place: { readonly from: number; readonly to: number }) => place.to > span.from && place.from < span.to;
  const runs = isCannotTell(segments.pump) ? null : segments.pump.runs.filter((run) => run.from >= span.from && run.from < span.to);
  const short = runs?.filter((run) => run.complete && run.to - run.from < site.shortCycleLimit.value).length ?? null;
  const swings = findingOf(outcomes, "oscillation")?.episodes.filter(inSpan) ?? null;
  const windows = findingOf(outcomes, "drift")?.windows.filter(inSpan) ?? null;
  const ends = pressureEnds(trace, span);
  const running = runs?.reduce((sum, run) => sum + run.to - run.from, 0) ?? 0;
  return {
    "starts-per-hour": runs === null ? null : runs.length / hours,
    "short-cycles-per-hour": short === null ? null : short / hours,
    "oscillation-peak-to-peak":
      swings === null ? clearOr(outcomes, "oscillation") : swings.reduce((most, e) => Math.max(most, e.peakToPeak.value), 0),
    "share-oscillating": swings === null || running === 0 ? null : Math.min(1, swings.reduce((sum, e) => sum + e.to - e.from, 0) / running),
    "drift-at-steady-flow": windows === null ? null : windows.reduce((most, w) => Math.max(most, Math.abs(w.change.value)), 0),
    "lowest-pressure": ends?.low ?? null,
    "highest-pressure": ends?.high ?? null,
    "stored-water": findingOf(outcomes, "tank-charge")?.liveDrawdown?.value ?? null,
  };
}

const clearOr = (outcomes: readonly Outcome[], kind: "oscillation"): number | null =>
  outcomes.some((outcome) => outcome.kind === kind && outcome.state === "clear") ? 0 : null;

function pressureEnds(trace: Trace, span: PredictedSpan): { readonly low: number; readonly high: number } | null {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = sampleAt(trace, span.from); i < trace.times.length && trace.times[i] <= span.to; i++) {
    if (trace.pressure[i] < low) low = trace.pressure[i];
    if (trace.pressure[i] > high) high = trace.pressure[i];
  }
  return low <= high ? { low, high } : null;
}
