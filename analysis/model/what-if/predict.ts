import type { Change, MeasureId, PredictedMeasures, PredictedSpan, Prediction } from "../../../shared/findings/what-if";
import { atOneGo } from "../../numerics/at-one-go";
import { seededRandom } from "../../numerics/random";
import type { Demand } from "../demand";
import type { FittedSite } from "../fit";
import { drawFromTrace } from "../fit/draw-from-trace";
import { drawn } from "../fit/estimate";
import { type ParameterValues, siteWith, valuesBy } from "../fit/frame";
import { sampleAt, type Trace } from "../fit/trace";
import { type SimulatedVisit, simulateInSteps } from "../simulate-site";
import { withChanges } from "./changes";
import { type Measures, measuresBy, measuresOf, SPREAD_AS, together } from "./measures";

export type PredictionOptions = {
  readonly shortCycleLimit: number;
  readonly draws?: number;
  readonly seed?: number;
  /** A stretch whose hour the draws are to see beside the busiest ones: where the site swings before a change. */
  readonly swing?: PredictedSpan | null;
};

const DRAWS = 8;
/**
 * From the outermost of eight draws to the ends of a 95 % interval: they lie 2.847 standard deviations apart on the mean (d2 of eight normal
 * draws, Tippett 1925, the constant of control charts; from memory), the ends 3.92.
 */
const STRETCH = 3.92 / 2.847;
const WINDOW = 3600; // s: spread is worked out on hours that stand for the span
/** s. Half of them moves the period of a hunting loop by under 1 % (tests/analysis/model/physics.test.ts). */
export const PREDICTION_STEPS = { step: 0.05, quietStep: 0.25 };
/** s, of the draws: how far they part hardly depends on the step. */
export const SPREAD_STEPS = { step: 0.1, quietStep: 0.25 };

/**
 * The site as fitted, with changes made, run over a span with the draw as recorded. The spread comes from parameters drawn within their
 * intervals, the usual ones included, over the span's busiest hours. Null where the draw is not known or the span holds no samples.
 */
export const predict = (
  fitted: FittedSite,
  changes: readonly Change[],
  span: PredictedSpan,
  options: PredictionOptions,
): Prediction | null => atOneGo(predictInSteps(fitted, changes, span, options));

/** The same with a rest now and then, so that whoever waits for it can look up and stop it half-way. */
export function* predictInSteps(
  fitted: FittedSite,
  changes: readonly Change[],
  span: PredictedSpan,
  options: PredictionOptions,
): Generator<undefined, Prediction | null> {
  const values = mostLikely(fitted);
  const whole = yield* runSpan(fitted, values, changes, span, options.shortCycleLimit, PREDICTION_STEPS);
  if (whole === null) return null;
  const telling = [options.swing ?? whole.swing, ...whole.moments].filter((moment) => moment !== null);
  const windows = span.to - span.from > 2 * WINDOW ? hoursOf(fitted.trace, span, telling) : [span];
  const over = function* (set: ParameterValues) {
    const measures: Measures[] = [];
    for (const window of windows) {
      const run = yield* runSpan(fitted, set, changes, window, options.shortCycleLimit, SPREAD_STEPS);
      if (run === null) return null;
      measures.push(run.measures);
    }
    return together(measures);
  };
  const centre = yield* over(values);
  const random = seededRandom(options.seed ?? 1);
  const draws: Measures[] = [];
  for (let i = 0; i < (options.draws ?? DRAWS); i++) {
    const draw = yield* over(drawnValues(fitted, random));
    if (draw !== null) draws.push(draw);
  }
  const measures = spread(whole.measures, centre ?? whole.measures, draws);
  return { span, times: whole.times, pressure: whole.pressure, measures, swing: whole.swing };
}

/** The busy hours and those around what the measures of the whole span come from: its swing, its lowest moment, its largest drift. */
function hoursOf(trace: Trace, span: PredictedSpan, telling: readonly PredictedSpan[]): readonly PredictedSpan[] {
  const hours = [...busyWindows(trace, span)];
  for (const { from, to } of telling) {
    const middle = (from + to) / 2;
    if (hours.some((hour) => hour.from <= middle && middle < hour.to)) continue;
    const start = Math.max(span.from, Math.min(middle - WINDOW / 2, span.to - WINDOW));
    hours.push({ from: start, to: start + WINDOW });
  }
  return hours;
}

export const mostLikely = (fitted: FittedSite): ParameterValues => valuesBy((id) => fitted.parameters[id].value);

const drawnValues = (fitted: FittedSite, random: { normal(): number }): ParameterValues =>
  valuesBy((id) => drawn(fitted.parameters[id], Math.max(-2.5, Math.min(2.5, random.normal()))));

export type SpanRun = Pick<Prediction, "times" | "pressure" | "swing"> & {
  readonly measures: Measures;
  /** Where the lowest pressure and the largest drift were: one moment each, which the busy hours need not hold. */
  readonly moments: readonly PredictedSpan[];
};

const SETTLED = 60; // s after which the lowest pressure counts, as in the truth of a simulated visit

function momentsOf({ truth, samples }: SimulatedVisit, start: number): PredictedSpan[] {
  const pressure = samples.columns.get("pressure") ?? new Float32Array(0);
  let lowest = -1;
  for (let i = 0; i < pressure.length; i++)
    if (samples.times[i] >= SETTLED && !(lowest >= 0 && pressure[i] >= pressure[lowest])) lowest = i;
  const drift = truth.steady.reduce<SimulatedVisit["truth"]["steady"][number] | null>(
    (most, one) => (most === null || Math.abs(one.change) > Math.abs(most.change) ? one : most),
    null,
  );
  const at = lowest < 0 ? [] : [{ from: start + samples.times[lowest], to: start + samples.times[lowest] }];
  return drift === null ? at : [...at, { from: start + drift.from, to: start + drift.to }];
}

function longestOf(swings: readonly PredictedSpan[], start: number): PredictedSpan | null {
  const longest = swings.reduce<PredictedSpan | null>(
    (most, one) => (most === null || one.to - one.from > most.to - most.from ? one : most),
    null,
  );
  return longest === null ? null : { from: start + longest.from, to: start + longest.to };
}

/** One run of the model over a span. The draw is worked out with the site as it is, then met by the site as changed. */
export function* runSpan(
  fitted: FittedSite,
  values: ParameterValues,
  changes: readonly Change[],
  span: PredictedSpan,
  shortCycleLimit: number,
  steps: typeof PREDICTION_STEPS,
): Generator<undefined, SpanRun | null> {
  const { trace, frame } = fitted;
  const [from, to] = [sampleAt(trace, span.from), sampleAt(trace, span.to)];
  if (to - from < 2) return null;
  const demand = demandOver(fitted, values, from, to);
  if (demand === null) return null;
  const changed = withChanges(frame, values, changes);
  const duration = trace.times[to - 1] - trace.times[from];
  const site = siteWith(changed.frame, changed.values);
  const logged = { ...site, logger: { ...site.logger, interval: Math.max(1, trace.interval), channels: ["pressure"] as const } };
  const start = startOf(trace, from, changed.values);
  const visit = yield* simulateInSteps(logged, demand, duration, 1, { ...start, ...steps });
  return {
    times: visit.samples.times.map((t) => t + trace.times[from]),
    pressure: visit.samples.columns.get("pressure") ?? new Float32Array(0),
    swing: longestOf(visit.truth.oscillations, trace.times[from]),
    moments: momentsOf(visit, trace.times[from]),
    measures: {
      ...measuresOf(visit.truth, duration, shortCycleLimit, changed.values, frame.atmosphere),
      // Between cut-in and cut-out pressure is meant to move: there is nothing it could drift from.
      ...(frame.control === "fixed-speed" ? { "drift-at-steady-flow": 0 } : {}),
    },
  };
}

function demandOver(fitted: FittedSite, values: ParameterValues, from: number, to: number): Demand | null {
  return drawFromTrace(fitted.trace, siteWith(fitted.frame, values), fitted.reference, from, to);
}

function startOf(trace: Trace, from: number, values: ParameterValues) {
  const seen = trace.pressure[from];
  const startPressure = Number.isFinite(seen) ? Math.max(seen, 0.9 * values["restart-pressure"]) : values["set-pressure"];
  const startSpeed = trace.run[from] >= 0 ? (trace.speed?.[from] ?? 0.8) : 0;
  return { startPressure, startSpeed: Number.isFinite(startSpeed) ? startSpeed : 0 };
}

/** The hour with most starts and the hour with the largest draw. */
export function busyWindows(trace: Trace, span: PredictedSpan): readonly PredictedSpan[] {
  const count = Math.floor((span.to - span.from) / WINDOW);
  const hour = (k: number) => ({ from: span.from + k * WINDOW, to: span.from + (k + 1) * WINDOW });
  const starts = new Float64Array(count);
  const drawn = new Float64Array(count);
  for (const run of trace.runs) {
    const k = Math.floor((run.from - span.from) / WINDOW);
    if (k >= 0 && k < count) starts[k]++;
  }
  if (trace.flow !== null) {
    for (let i = sampleAt(trace, span.from); i < trace.times.length && trace.times[i] < span.to; i++) {
      const k = Math.floor((trace.times[i] - span.from) / WINDOW);
      if (k < count && Number.isFinite(trace.flow[i])) drawn[k] += trace.flow[i];
    }
  }
  const [busiest, wettest] = [indexOfMost(starts), indexOfMost(drawn)];
  return busiest === wettest || trace.flow === null ? [hour(busiest)] : [hour(busiest), hour(wettest)];
}

function indexOfMost(values: Float64Array): number {
  let most = 0;
  for (let i = 1; i < values.length; i++) if (values[i] > values[most]) most = i;
  return most;
}

/** Departures of the draws from the most likely site over the same hours, laid around the value of the whole span. */
function spread(whole: Measures, centre: Measures, draws: readonly Measures[]): PredictedMeasures {
  const around = (id: MeasureId) => {
    const value = whole[id];
    const byRatio = SPREAD_AS[id] === "ratio" && centre[id] > 0;
    const ends = draws.map((draw) => (byRatio ? value * (draw[id] / centre[id]) ** STRETCH : value + STRETCH * (draw[id] - centre[id])));
    // A swing is there or it is not: where the same site begun anew, or one drawn, swings less or not at all in these hours, it may do so over the span as well.
    if (id === "oscillation-peak-to-peak") ends.push(centre[id], ...draws.map((draw) => draw[id]));
    // Nothing flows from a tap below the pressure of the air, so no pressure falls there; nor is there less than none of the rest.
    const low = Math.max(
      Math.min(0, value),
      ends.reduce((least, end) => Math.min(least, end), value),
    );
    const high = ends.reduce((most, end) => Math.max(most, end), value);
    return { value, low, high: id === "share-oscillating" ? Math.min(1, high) : high };
  };
  return measuresBy(around);
}
