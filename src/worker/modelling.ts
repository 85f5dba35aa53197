import { withEffectsInSteps } from "../../analysis/advice/effects";
import { type FittedSite, fitSiteInSteps } from "../../analysis/model/fit";
import { whatIfInSteps } from "../../analysis/model/what-if";
import { mayBreak, smallestChangeInSteps } from "../../analysis/model/what-if/search";
import type { Analysis } from "../../shared/findings/analysis";
import type { Segments } from "../../shared/findings/segment";
import type { Prediction } from "../../shared/findings/what-if";
import { inGauge } from "../../shared/record/in-gauge";
import type { LogRecord } from "../../shared/record/log-record";
import type { ModelRun, ModelRunOrder } from "./model-run";

/** Fits kept for the analyses they belong to, known by their segments: fitting takes far longer than a prediction. */
const fits = new WeakMap<Segments, FittedSite | "none">();
const underWay = new WeakMap<Segments, Generator<undefined, FittedSite | "none">>();
/** The site as it is, run over the stretch asked for last. */
const runs = new WeakMap<FittedSite, { readonly key: string; readonly now: Prediction }>();

/** Runs the fitted model as it is and with changes, over a stretch of the record; with rests, so that a newer change need not wait for an older one. */
export function* runModelInSteps(
  record: LogRecord,
  analysis: Analysis,
  { changes, span, search }: ModelRunOrder,
): Generator<undefined, ModelRun> {
  const fitted = yield* fitFor(record, analysis);
  if (fitted === "none") return { state: "no-model" };
  const proposal = search ? yield* smallestChangeInSteps(fitted, analysis.site, span) : null;
  const chosen = proposal === null ? changes : proposal.nearest;
  const key = `${span.from} ${span.to}`;
  const known = runs.get(fitted);
  const now = known?.key === key ? known.now : null;
  const answer = yield* whatIfInSteps(fitted, analysis.site, analysis.segments, analysis.outcomes, chosen, span, now);
  if (answer === null) return { state: "draw-not-known" };
  runs.set(fitted, { key, now: answer.now });
  return {
    state: "run",
    answer,
    proposal,
    mayBreak: proposal === null ? [] : mayBreak(answer.after.measures, analysis.site),
    parameters: fitted.parameters,
    isDrive: fitted.frame.control === "variable-speed",
    explained: fitted.explained,
    recorded: recordedOver(fitted, span),
  };
}

/** The analysis with what the fitted model says of each step of its advice; as it was where there is no model. */
export function* withEffects(record: LogRecord, analysis: Analysis): Generator<undefined, Analysis> {
  const fitted = yield* fitFor(record, analysis);
  return fitted === "none" ? analysis : { ...analysis, advice: yield* withEffectsInSteps(analysis, fitted) };
}

/** A fit that was begun for a run since overtaken is gone on with, not begun anew. */
function* fitFor(record: LogRecord, analysis: Analysis): Generator<undefined, FittedSite | "none"> {
  const done = fits.get(analysis.segments);
  if (done !== undefined) return done;
  const steps = underWay.get(analysis.segments) ?? fitOrNone(record, analysis);
  underWay.set(analysis.segments, steps);
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done === true) {
      fits.set(analysis.segments, step.value);
      return step.value;
    }
    yield;
  }
}

function* fitOrNone(record: LogRecord, { site, segments, outcomes, faults }: Analysis): Generator<undefined, FittedSite | "none"> {
  return (yield* fitSiteInSteps(inGauge(record, site.atmosphere.value), segments, outcomes, site, faults)) ?? "none";
}

function recordedOver(
  { trace }: FittedSite,
  span: ModelRunOrder["span"],
): { readonly times: Float64Array; readonly pressure: Float64Array } {
  const inside = (t: number) => t >= span.from && t <= span.to;
  const kept = Array.from(trace.times.keys()).filter((i) => inside(trace.times[i]));
  return { times: Float64Array.from(kept, (i) => trace.times[i]), pressure: Float64Array.from(kept, (i) => trace.pressure[i]) };
}
