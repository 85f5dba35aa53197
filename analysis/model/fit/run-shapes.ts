import type { Demand } from "../demand";
import { simulateSite } from "../simulate-site";
import type { SiteModel } from "../site-model";
import { drawFromTrace } from "./draw-from-trace";
import { sampleAt, type Trace } from "./trace";

/** A run of the record as the fit compares it: from ten seconds of rest before its start to two minutes after, or the next start. */
export type RunCase = {
  readonly demand: Demand;
  readonly startPressure: number;
  readonly duration: number;
  readonly seen: readonly number[];
  /** Standard deviation allowed of each number: sampling, and what the form of the model may be wrong by. */
  readonly spread: readonly number[];
};

const COARSE = 0.1; // s, step of the trials: half of it moves shapes by far less than their spread
const BEFORE = 10; // s
const AFTER = 120; // s
const MOST_CASES = 14;

/** Runs spread over the record that begin after a rest. */
export function runCases(trace: Trace, site: SiteModel, reference: number): readonly RunCase[] {
  const fit = trace.runs.filter((run, r) => (r === 0 ? run.from : run.from - trace.runs[r - 1].to) > BEFORE + 8 && run.to - run.from > 8);
  const every = Math.max(1, Math.ceil(fit.length / MOST_CASES));
  return fit.filter((_, i) => i % every === 0).flatMap((run) => caseOf(trace, site, reference, run) ?? []);
}

function caseOf(trace: Trace, site: SiteModel, reference: number, run: Trace["runs"][number]): RunCase | null {
  const next = trace.runs.find((other) => other.from > run.from);
  const from = sampleAt(trace, run.from - BEFORE);
  const to = sampleAt(trace, Math.min(run.from + AFTER, next === undefined ? Number.POSITIVE_INFINITY : next.from - trace.interval));
  const duration = trace.times[to - 1] - trace.times[from];
  const gap = Math.abs(duration - (to - 1 - from) * trace.interval) > 2 * trace.interval;
  if (to - from < 8 || gap || !Number.isFinite(trace.pressure[from])) return null;
  const pressure = Float64Array.from({ length: to - from }, (_, k) => trace.pressure[from + k]);
  if (pressure.some(Number.isNaN)) return null;
  const demand = drawFromTrace(trace, site, reference, from, to);
  if (demand === null) return null;
  const speed = trace.speed === null ? null : trace.speed.slice(from, to);
  const length = Math.min(run.to - run.from, duration - BEFORE);
  const seen = shapeOf(pressure, speed, length, trace.interval);
  return { demand, startPressure: pressure[0], duration, seen, spread: spreadOf(length, trace.interval, speed !== null) };
}

/**
 * What a run looks like, in numbers: lowest pressure at the start and when, highest after it and when, level a quarter to half a minute on,
 * how much it still moves later, how long it ran and its pressure before the stop; with speed its highest and its level.
 */
function shapeOf(pressure: ArrayLike<number>, speed: ArrayLike<number> | null, length: number, interval: number): number[] {
  const at = (s: number) => Math.min(pressure.length, Math.round(s / interval));
  let low = 0;
  for (let i = 1; i < at(BEFORE + 25); i++) if (pressure[i] < pressure[low]) low = i;
  let top = low;
  for (let i = low; i < Math.min(pressure.length, low + at(30)); i++) if (pressure[i] > pressure[top]) top = i;
  const level = meanAndSpread(pressure, low + at(15), low + at(35));
  const later = meanAndSpread(pressure, low + at(35), low + at(95));
  const last = meanAndSpread(pressure, at(BEFORE + length - 9), at(BEFORE + length - 2));
  const shape = [pressure[low], low * interval, pressure[top], top * interval, level.mean, later.spread, length, last.mean];
  if (speed === null) return shape;
  let fastest = 0;
  for (let i = 0; i < Math.min(speed.length, low + at(30)); i++) fastest = Math.max(fastest, speed[i]);
  return [...shape, fastest, meanAndSpread(speed, low + at(15), low + at(35)).mean];
}

function spreadOf(length: number, interval: number, withSpeed: boolean): number[] {
  const time = 0.6 * interval + 0.5;
  return [1.5e3, time, 3e3, 1.5 * time, 3e3, 1.5e3, 2 + interval + 0.05 * length, 2e3, ...(withSpeed ? [0.015, 0.02] : [])];
}

function meanAndSpread(values: ArrayLike<number>, from: number, to: number): { readonly mean: number; readonly spread: number } {
  const end = Math.min(values.length, to);
  if (end - from < 3) return { mean: values[values.length - 1], spread: 0 };
  let [sum, squares] = [0, 0];
  for (let i = from; i < end; i++) sum += values[i];
  const mean = sum / (end - from);
  for (let i = from; i < end; i++) squares += (values[i] - mean) ** 2;
  return { mean, spread: Math.sqrt(squares / (end - from)) };
}

/** How far a model is from the run, in standard deviations of each number. */
export function misfit(site: SiteModel, run: RunCase, interval: number, withSpeed: boolean): number[] {
  const logged = {
    ...site,
    logger: { ...site.logger, interval, channels: withSpeed ? (["pressure", "speed"] as const) : (["pressure"] as const) },
  };
  const visit = simulateSite(logged, run.demand, run.duration, 1, { startPressure: run.startPressure, step: COARSE });
  const first = visit.truth.runs[0];
  const length = first === undefined ? 0 : Math.min(first.to - first.from, run.duration - BEFORE);
  const pressure = visit.samples.columns.get("pressure");
  const shape = pressure === undefined ? run.seen : shapeOf(pressure, visit.samples.columns.get("speed") ?? null, length, interval);
  return shape.map((value, i) => (value - run.seen[i]) / run.spread[i]);
}
