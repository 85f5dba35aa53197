import { type FittedSite, fitSite } from "../../analysis/model/fit";
import { whatIf } from "../../analysis/model/what-if";
import { smallestChange } from "../../analysis/model/what-if/search";
import type { Analysis } from "../../shared/findings/analysis";
import type { Prediction } from "../../shared/findings/what-if";
import { inGauge } from "../../shared/record/in-gauge";
import type { LogRecord } from "../../shared/record/log-record";
import type { ModelRun, ModelRunOrder } from "./model-run";

/** Fits kept for the analyses they belong to: fitting takes far longer than a prediction. */
const fits = new WeakMap<Analysis, FittedSite | "none">();
/** The site as it is, run over the stretch asked for last. */
const runs = new WeakMap<FittedSite, { readonly key: string; readonly now: Prediction }>();

/** Runs the fitted model as it is and with changes, over a stretch of the record. */
export function runModel(record: LogRecord, analysis: Analysis, { changes, span, search }: ModelRunOrder): ModelRun {
  const fitted = fits.get(analysis) ?? fitOrNone(record, analysis);
  fits.set(analysis, fitted);
  if (fitted === "none") return { state: "no-model" };
  const proposal = search ? smallestChange(fitted, analysis.site, span) : null;
  const chosen = proposal === null ? changes : proposal.nearest;
  const key = `${span.from} ${span.to}`;
  const known = runs.get(fitted);
  const answer = whatIf(fitted, analysis.site, analysis.segments, analysis.outcomes, chosen, span, known?.key === key ? known.now : null);
  if (answer === null) return { state: "draw-not-known" };
  runs.set(fitted, { key, now: answer.now });
  return {
    state: "run",
    answer,
    proposal,
    parameters: fitted.parameters,
    explained: fitted.explained,
    recorded: recordedOver(fitted, span),
  };
}

function fitOrNone(record: LogRecord, { site, segments, outcomes, faults }: Analysis): FittedSite | "none" {
  return fitSite(inGauge(record, site.atmosphere.value), segments, outcomes, site, faults) ?? "none";
}

function recordedOver(
  { trace }: FittedSite,
  span: ModelRunOrder["span"],
): { readonly times: Float64Array; readonly pressure: Float64Array } {
  const inside = (t: number) => t >= span.from && t <= span.to;
  const kept = Array.from(trace.times.keys()).filter((i) => inside(trace.times[i]));
  return { times: Float64Array.from(kept, (i) => trace.times[i]), pressure: Float64Array.from(kept, (i) => trace.pressure[i]) };
}
