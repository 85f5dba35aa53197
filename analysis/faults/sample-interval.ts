import type { Sampling } from "../../shared/record/log-record";
import { type Seconds, seconds } from "../../shared/units/quantity";

/** Usual interval between samples, and the one above which samples are missing. */
export type SampleInterval = { readonly median: Seconds; readonly longest: Seconds };

const MISSING_FROM = 3.5; // in median intervals: three samples in a row are absent
const USUAL_SHARE = 0.95;

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
  const { times } = sampling;
  if (times.length < 3) return null;
  const stride = Math.max(1, Math.floor(times.length / 20_000)); // enough for two quantiles
  const steps: number[] = [];
  for (let i = 1; i < times.length; i += stride) steps.push(times[i] - times[i - 1]);
  steps.sort((a, b) => a - b);
  const median = steps[steps.length >> 1];
  const usual = steps[Math.min(steps.length - 1, Math.floor(steps.length * USUAL_SHARE))];
  return { median: seconds(median), longest: seconds(Math.max(MISSING_FROM * median, 2 * usual)) };
}
