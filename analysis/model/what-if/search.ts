import type { Change, MeasureId, PredictedMeasures, PredictedSpan, Proposal } from "../../../shared/findings/what-if";
import type { AcceptanceLimits, SiteFacts } from "../../../shared/site/site-facts";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { atOneGo } from "../../numerics/at-one-go";
import type { FittedSite } from "../fit";
import { type Measures, measuresBy, together } from "./measures";
import { busyWindows, mostLikely, PREDICTION_STEPS, runSpan, SPREAD_STEPS } from "./predict";

/** A step a site can take, with its effort: settings are turned on the visit, a sensor is moved, a tank is bought. */
type Step = { readonly change: Change; readonly effort: number };

/**
 * The smallest change that meets the acceptance limits, by effort: one step after the other alone, then two settings together, then a larger
 * tank with them. Tried on the busiest hours of the span with the most likely parameters; what passes there must pass over the day around them, then over the whole span.
 * Null where the draw is not known.
 */
export const smallestChange = (fitted: FittedSite, site: SiteFacts, span: PredictedSpan): Proposal | null =>
  atOneGo(smallestChangeInSteps(fitted, site, span));

/** The same with a rest now and then, so that whoever waits for it can look up and stop it half-way. */
export function* smallestChangeInSteps(fitted: FittedSite, site: SiteFacts, span: PredictedSpan): Generator<undefined, Proposal | null> {
  const windows = span.to - span.from > 7200 ? busyWindows(fitted.trace, span) : [span];
  const values = mostLikely(fitted);
  const limit = site.shortCycleLimit.value;
  const marked = site.tankRatedPressure?.value;
  const day = dayAround(windows[0], span);
  const judge = function* (changes: readonly Change[]) {
    const measures: Measures[] = [];
    for (const window of windows) {
      const run = yield* runSpan(fitted, values, changes, window, limit, SPREAD_STEPS);
      if (run === null) return null;
      measures.push(run.measures);
    }
    return worstOf(measures);
  };
  let tried = 0;
  let checks = 0;
  let best: { changes: readonly Change[]; measures: Measures; broken: readonly MeasureId[]; excess: number } | null = null;
  for (const changes of candidates(fitted, site)) {
    const measures = yield* judge(changes);
    if (measures === null) return null;
    tried++;
    const { broken, excess } = judged(measures, site.limits, marked);
    if (checks >= MOST_CHECKS) break; // an unchecked change is no proposal
    let seen = { measures, broken, excess };
    for (const longer of windows[0] === span ? [] : [day, span]) {
      if (seen.broken.length > 0) break;
      checks += longer === span ? 3 : 1;
      const run = yield* runSpan(fitted, values, changes, longer, limit, PREDICTION_STEPS);
      if (run !== null) seen = { measures: run.measures, ...judged(run.measures, site.limits, marked) };
    }
    if (best === null || seen.excess < best.excess) best = { changes, ...seen };
    if (seen.broken.length === 0) return { changes, nearest: changes, measures: seen.measures, broken: seen.broken, tried };
  }
  return best === null ? null : { changes: null, nearest: best.changes, measures: best.measures, broken: best.broken, tried };
}

function candidates(fitted: FittedSite, site: SiteFacts): readonly (readonly Change[])[] {
  const steps = possibleSteps(fitted, site);
  const settings = steps.filter((step) => step.effort < 3);
  const pairs = settings.flatMap((a, i) =>
    settings
      .slice(i + 1)
      .filter((b) => b.change.id !== a.change.id)
      .map((b) => [a, b]),
  );
  const threes = [precharged(fitted, site), ...settings.filter((s) => s.change.id === "gain").slice(0, 2)]
    .filter((step) => step !== null)
    .flatMap((a) => pairs.filter((pair) => pair.every((b) => b.change.id !== a.change.id)).map((pair) => [a, ...pair]));
  const all = [[], ...steps.map((step) => [step]), ...pairs, ...threes.slice(0, MOST_THREES)];
  const effort = (group: readonly Step[]) => group.reduce((sum, step) => sum + step.effort, 0);
  return all.sort((a, b) => effort(a) - effort(b)).map((group) => group.map((step) => step.change));
}

const MOST_THREES = 40;
const MOST_CHECKS = 18; // a day takes a sixth of a second and counts once, the whole span three times
const DAY = 86400; // s

function dayAround(hour: PredictedSpan, span: PredictedSpan): PredictedSpan {
  const from = Math.max(span.from, Math.min(hour.from - DAY / 2, span.to - DAY));
  return { from, to: Math.min(span.to, from + DAY) };
}

const USUAL_BELOW_SET = 17.5 * PASCAL_PER_PSI; // common practice: 15 to 20 psi

function precharged(fitted: FittedSite, site: SiteFacts): Step | null {
  const values = mostLikely(fitted);
  const now = values["gas-constant"] / values["tank-volume"] - fitted.frame.atmosphere;
  const to = Math.min(values["set-pressure"] - USUAL_BELOW_SET, values["restart-pressure"] - 2 * PASCAL_PER_PSI);
  const marked = site.tankRatedPressure?.value ?? Number.POSITIVE_INFINITY;
  return Math.abs(now - to) > 3 * PASCAL_PER_PSI && to > 0 && to < marked ? { change: { id: "precharge", to }, effort: 1 } : null;
}

function possibleSteps(fitted: FittedSite, site: SiteFacts): readonly Step[] {
  const values = mostLikely(fitted);
  const charge = precharged(fitted, site);
  const leak = values["system-leak"] + values["back-leak"];
  const drive = fitted.frame.control === "variable-speed";
  const ratio = (factor: number) => Math.abs(Math.log(factor));
  const gains = drive ? [0.7, 0.5, 0.35, 1.5, 2] : [];
  const times = drive ? [0.5, 0.25, 0.12, 2] : [];
  const delays = drive ? [1.5, 2.5, 4] : [];
  const distance = values["sensor-distance"];
  return [
    ...(charge === null ? [] : [charge]),
    ...gains.map((factor): Step => ({ change: { id: "gain", to: factor }, effort: (factor > 1 ? 1.5 : 1) + 0.5 * ratio(factor) })),
    ...times.map(
      (factor): Step => ({ change: { id: "integral-time", to: values["integral-time"] * factor }, effort: 1.2 + 0.4 * ratio(factor) }),
    ),
    ...delays.map(
      (factor): Step => ({ change: { id: "sleep-delay", to: values["sleep-delay"] * factor }, effort: 1 + 0.5 * ratio(factor) }),
    ),
    ...(leak > 1e-6 ? [{ change: { id: "leak", to: 0 }, effort: 3 } satisfies Step] : []),
    ...(distance > 3.05 ? [{ change: { id: "sensor-distance", to: 1 }, effort: 3 } satisfies Step] : []),
    ...[1.5, 2, 3].map((factor): Step => ({ change: { id: "tank-volume", to: values["tank-volume"] * factor }, effort: 4 + factor })),
  ];
}

/** The busiest hour counts, not the mean of hours: limits hold at all times. */
const worstOf = (all: readonly Measures[]): Measures => ({
  ...together(all),
  "starts-per-hour": all.reduce((most, m) => Math.max(most, m["starts-per-hour"]), 0),
  "short-cycles-per-hour": all.reduce((most, m) => Math.max(most, m["short-cycles-per-hour"]), 0),
});

/** Limits that a prediction meets at its likeliest but not in all of its spread. */
export function mayBreak(predicted: PredictedMeasures, site: SiteFacts): readonly MeasureId[] {
  const marked = site.tankRatedPressure?.value;
  const at = (end: "value" | "high") =>
    judged(
      measuresBy((id) => predicted[id][end]),
      site.limits,
      marked,
    ).broken;
  const surely = at("value");
  return at("high").filter((id) => !surely.includes(id));
}

/** Which limits are broken, and by how much together (as shares of the limits). Short cycles have no limit of their own but none is asked for. */
export function judged(
  measures: Measures,
  limits: AcceptanceLimits,
  marked = Number.POSITIVE_INFINITY,
): { readonly broken: readonly MeasureId[]; readonly excess: number } {
  const checks = [
    ["starts-per-hour", measures["starts-per-hour"], limits.startsPerHour?.value ?? Number.POSITIVE_INFINITY],
    ["short-cycles-per-hour", measures["short-cycles-per-hour"], 0.5],
    ["oscillation-peak-to-peak", measures["oscillation-peak-to-peak"], limits.oscillationPeakToPeak.value],
    ["drift-at-steady-flow", measures["drift-at-steady-flow"], limits.driftAtSteadyFlow.value],
    ["highest-pressure", measures["highest-pressure"], marked],
  ] as const;
  const over = checks.filter(([, value, limit]) => value > limit);
  return { broken: over.map(([id]) => id), excess: over.reduce((sum, [, value, limit]) => sum + value / limit - 1, 0) };
}
