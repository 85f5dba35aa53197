import type { Sampling } from "../../shared/record/log-record";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { remembered } from "../numerics/remember";

/** Usual interval between samples, and the one above which samples are missing. */
export type SampleInterval = { readonly median: Seconds; readonly longest: Seconds };

const MISSING_FROM = 3.5; // in median intervals: three samples in a row are absent
const USUAL_SHARE = 0.95; // of the intervals

/**
 * Interval at which a channel was sampled. A logger that skips single seconds or samples unevenly has no gap until an interval stands out
 * from its own: over 3.5 times the median and over twice what 95 % of the intervals keep to.
 * @returns null below three samples, and for a log on change, whose silences mean that nothing changed
 */
export function sampleInterval(sampling: Sampling): SampleInterval | null {
  if (sampling.kind === "on-change") return null;
  if (sampling.kind === "even") {
    return sampling.count < 3 ? null : { median: sampling.step, longest: seconds(sampling.step * MISSING_FROM) };
  }
  return sampling.times.length < 3 ? null : ofTimes(sampling.times);
}

/** Asked again and again of the same channel, once for each stretch and draw: worked out once. */
const ofTimes = remembered((times: Float64Array): SampleInterval => {
  const stride = Math.max(1, Math.floor(times.length / 20_000)); // enough for two quantiles
  const steps = new Float64Array(Math.ceil((times.length - 1) / stride));
  for (let k = 0; k < steps.length; k++) steps[k] = times[1 + k * stride] - times[k * stride];
  steps.sort();
  const median = steps[steps.length >> 1];
  const usual = steps[Math.min(steps.length - 1, Math.floor(steps.length * USUAL_SHARE))];
  return { median: seconds(median), longest: seconds(Math.max(MISSING_FROM * median, 2 * usual)) };
});
