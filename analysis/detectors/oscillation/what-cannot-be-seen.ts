import type { CannotTell } from "../../../shared/findings/cannot-tell";
import type { Span } from "../../../shared/findings/span";
import type { Channel } from "../../../shared/record/log-record";
import { quantile } from "../../numerics/order-statistics";
import { valueStep } from "../../numerics/value-step";
import type { EvenStretch } from "../../segments/even-stretch";
import { usualInterval } from "../../segments/even-stretch";

/** Samples a wave needs to be told from noise, and waves a record needs. */
export const LEAST_SAMPLES_PER_WAVE = 4;
export const LEAST_WAVES = 5;
/** Pressure loops with a small tank hunt from a few seconds on. Common practice, no source. */
const FASTEST_USUAL_WAVE = 5; // s
/** With the shortest visible wave above this, "nothing found" would say nothing about a usual loop. */
const STILL_MEANINGFUL = 20; // s

const because = (id: CannotTell["id"], detail: CannotTell["detail"]): CannotTell => ({ id, about: "oscillation", detail });

/** Everything about this log that hides oscillation, with what to log instead; those that leave no answer at all are `blocking`. */
export function hiddenBySampling(
  channel: Channel,
  stretches: readonly EvenStretch[],
  watched: readonly Span[] | null,
  duration: number,
  largest: number,
): { readonly limits: CannotTell[]; readonly blocking: CannotTell[] } {
  const limits: CannotTell[] = [];
  const blocking: CannotTell[] = [];
  const interval = usualInterval(channel);
  const shortest = LEAST_SAMPLES_PER_WAVE * interval;
  if (!(shortest <= FASTEST_USUAL_WAVE)) {
    const slow = because("sampling-too-slow", { intervalS: interval, hiddenBelowS: shortest, logEveryS: 1 });
    (shortest > STILL_MEANINGFUL ? blocking : limits).push(slow);
  }
  const step = valueStep(channel.values);
  if (step > largest / 4)
    (step > largest / 2 ? blocking : limits).push(because("quantised-too-coarse", { stepPa: step, neededStepPa: largest / 10 }));
  const time = watched === null ? duration : watched.reduce((sum, span) => sum + span.to - span.from, 0);
  const seen = stretches.reduce((sum, s) => sum + s.to - s.from, 0);
  const longest = stretches.reduce((most, s) => Math.max(most, s.to - s.from), 0);
  const needed = LEAST_WAVES * Math.max(shortest, FASTEST_USUAL_WAVE);
  if (!(longest >= needed)) {
    if (time > 2 * needed && seen < 0.5 * time) blocking.push(because("gaps-too-many", { seenShare: seen / time, needS: needed }));
    else if (duration < 2 * needed) blocking.push(because("record-too-short", { longestS: longest, needS: 10 * needed }));
    else blocking.push(because("nothing-to-see", { why: "runs-too-short", longestS: longest }));
  } else if (seen < 0.5 * time) limits.push(because("gaps-too-many", { seenShare: seen / time, needS: needed }));
  return { limits, blocking };
}

/** A drive works its loop out some tens of times a second, and a swing takes some ten of these steps: nothing swings faster. Common practice, no source. */
const FASTEST_WAVE = 0.2; // s
const IN_STEP = 0.1; // of the period seen
/** How near to whole steps the intervals of a clock must be, and how many of them, to be those of an even one of which some rows are not written. */
const WHOLE = 0.05;
const MOST_OF_THEM = 0.9;
const SOME_INTERVALS = 2000;

/** Step of the clock by which samples are taken, s: also where rows are missing or only changes are written. Null where the times are not whole steps, which breaks the folding. */
function clockStep({ sampling }: Channel): number | null {
  if (sampling.kind === "even") return sampling.step;
  const intervals = Array.from(sampling.times.subarray(1, SOME_INTERVALS), (t, i) => t - sampling.times[i]).filter((d) => d > 0);
  const step = quantile(intervals, 0.1);
  const whole = intervals.filter((d) => Math.abs(d / step - Math.round(d / step)) < WHOLE && d > step / 2).length;
  return whole > MOST_OF_THEM * intervals.length ? step : null;
}

/**
 * Periods of faster waves that would look the same at even sampling: 1 / |k / interval - f|. Empty where uneven times break the folding, and where only
 * waves too fast for a pump would fold, or such as keep so near to the clock's own rate that they would need a tenth of the period seen or less: no plant swings
 * in step with a logger for that long.
 */
export function couldFoldFrom(period: number, channel: Channel): number[] {
  const step = clockStep(channel);
  if (step === null) return [];
  const rate = 1 / step;
  const f = 1 / period;
  return [rate - f, rate + f, 2 * rate - f, 2 * rate + f]
    .map((alias) => 1 / alias)
    .filter((p) => p >= Math.max(FASTEST_WAVE, IN_STEP * period));
}
