import type { Sampling } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { bendOf } from "../numerics/hinge";
import { median } from "../numerics/order-statistics";

/** The pump's own saw-tooth: least swing that counts, pressures it starts and stops at, noise (all Pa), and whether a drive holds the top. */
export type SawTooth = {
  readonly size: number;
  readonly low: number;
  readonly high: number;
  /** Pressure that a drive holds between start and stop, below the overshoot of its starts; `high` for a switch. */
  readonly held: number;
  readonly noise: number;
  readonly regulated: boolean;
  /** Whether a low of that index lies deep enough for a start. */
  readonly mayStart: (low: number) => boolean;
  /** What speaks against its starts: samples too far apart, lows that come to and fro as waves do, others that may be starts as well, or a pump that cannot keep up. */
  readonly doubt: "too-slow" | "waves" | "others" | "overdrawn" | null;
};

/** One stretch of a pressure channel: samples first..last. */
export type Curve = {
  readonly values: ArrayLike<number>;
  readonly sampling: Sampling;
  readonly first: number;
  readonly last: number;
};

const WITHIN = 3; // noise spreads
const SIDE_SHARE = 0.12; // of the swing: as far as a side of a bend is nearly straight
const MOST_SIDE = 60; // samples
const LEAST_SIDE = 3;

/**
 * Instant of a start: the bend at a low, between the fall before it and the rise after. Where the pressure stood near the starting pressure for long, noise
 * puts the lowest sample anywhere on that level: the rise leaves its last sample.
 */
export function startOf(curve: Curve, low: number, saw: SawTooth): Seconds {
  const { values, last } = curve;
  const near = values[low] + 2 * WITHIN * saw.noise;
  const risen = values[low] + Math.max(4 * WITHIN * saw.noise, saw.size / 2);
  let rough = low;
  for (let i = low + 1; i <= last && !(values[i] > risen); i++) if (values[i] <= near) rough = i;
  return bendNear(curve, rough, saw);
}

/** `lift` is the height of a last step up before the stop, Pa, where that step is what tells the stop; else null. */
export type Stop = { readonly at: Seconds; readonly sure: boolean; readonly lift: number | null };

/** Instant of a stop between a start and the next: the end of the rise of a switched pump; of a drive, see `stopOfDrive`. */
export function stopOf(curve: Curve, low: number, high: number, next: number, saw: SawTooth): Stop {
  return saw.regulated
    ? stopOfDrive(curve, low, next, saw)
    : { at: bendNear(curve, firstNear(curve, low, high, saw.noise), saw), sure: true, lift: null };
}

/** First sample that is no lower than the highest by more than noise: a closed system stays at the top after the pump has stopped. */
function firstNear({ values }: Curve, low: number, high: number, noise: number): number {
  for (let i = low; i < high; i++) if (values[i] >= values[high] - WITHIN * noise) return i;
  return high;
}

const END_SAMPLES = 9; // whose median is the level of a top
const LIFT = 4; // noise spreads
const HELD = 6; // noise spreads from lowest to highest of a few samples at one pressure
const LIFTING = 6; // samples that the step itself may take

/**
 * A drive stops on the last quiet top before the fall. Where that top is a step up from a held pressure (a boost before sleep) the stop is its begin.
 * Without one the stop lies anywhere on it, for a drive idles without giving water until it sleeps: the end, where the pressure is no longer held, is given, and not
 * believed. Nor does water drawn right up to it tell: a drive may sleep at a small draw, and the tank's first water leaves the held level by less than the noise.
 */
function stopOfDrive(curve: Curve, low: number, next: number, saw: SawTooth): Stop {
  const { values, sampling } = curve;
  const risen = firstNear(curve, low, highestOf(values, low, next), saw.noise);
  const falls = bendNear(curve, startOfFall(curve, risen, next, saw), saw);
  const fall = Math.min(next, Math.max(risen, indexAtOrAfter(sampling, falls) - 1));
  const level = median(Float64Array.from({ length: Math.min(END_SAMPLES, fall - risen + 1) }, (_, i) => values[fall - i]));
  let begin = fall;
  while (begin > risen && values[begin - 1] > level - LIFT * saw.noise) begin--;
  begin = firstNear(curve, begin, highestOf(values, begin, fall), saw.noise);
  const held = begin - LIFTING;
  const before = median(Float64Array.from({ length: Math.max(0, Math.min(END_SAMPLES, held - low)) }, (_, i) => values[held - i]));
  const lifted = before < level - LIFT * saw.noise && spreadOf(values, held - END_SAMPLES, held) < HELD * saw.noise;
  if (lifted) return { at: bendNear(curve, begin, saw), sure: true, lift: level - before };
  return { at: falls, sure: false, lift: null };
}

/** Highest less lowest of a few samples; Infinity where they do not exist. */
function spreadOf(values: ArrayLike<number>, first: number, last: number): number {
  if (first < 0) return Number.POSITIVE_INFINITY;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = first; i <= last; i++) {
    low = Math.min(low, values[i]);
    high = Math.max(high, values[i]);
  }
  return high - low;
}

function highestOf(values: ArrayLike<number>, first: number, last: number): number {
  let highest = first;
  for (let i = first; i <= last; i++) if (values[i] > values[highest]) highest = i;
  return highest;
}

/** Last sample near the held top before the fall that leads to the next start. */
function startOfFall({ values }: Curve, risen: number, next: number, { low, high, held, noise }: SawTooth): number {
  const nearTop = held - Math.max(2 * WITHIN * noise, 0.1 * (high - low));
  let at = next;
  while (at > risen && !(values[at] > nearTop)) at--;
  return at;
}

/** The bend about a sample: both sides as far as they are nearly straight. The sample's own instant where there are too few. */
function bendNear({ values, sampling, first, last }: Curve, at: number, { low, high, noise }: SawTooth): Seconds {
  const away = Math.max(SIDE_SHARE * (high - low), 8 * noise);
  let from = at;
  while (from > first && at - from < MOST_SIDE && (at - from < LEAST_SIDE || !(Math.abs(values[from] - values[at]) > away))) from--;
  let to = at;
  while (to < last && to - at < MOST_SIDE && (to - at < LEAST_SIDE || !(Math.abs(values[to] - values[at]) > away))) to++;
  const indexes: number[] = [];
  for (let i = from; i <= to; i++) if (!Number.isNaN(values[i])) indexes.push(i);
  const bend = bendOf(
    indexes.map((i) => timeAt(sampling, i)),
    indexes.map((i) => values[i]),
  );
  return Number.isNaN(bend) ? timeAt(sampling, at) : seconds(bend);
}
