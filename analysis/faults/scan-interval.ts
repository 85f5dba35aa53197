import type { Sampling } from "../../shared/record/log-record";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { quantile } from "../numerics/order-statistics";
import { remembered } from "../numerics/remember";

const FEWEST_INTERVALS = 20;
/** Intervals looked at: up to so many scans, beyond which the scan's own jitter has added up. */
const SCANS = 8;
/** An interval lies on the grid within this part of a scan; of intervals without a grid three in ten do by chance. */
const ON_GRID = 0.15;
const MOST_ON_GRID = 0.9;

/**
 * How often a logger that writes on change looks at its inputs: the common measure of the times between its rows, which then are whole multiples of it. An instant
 * that it tells lies up to so much after the true one. Clock stamps of whole seconds show as a scan of a second, which is what they hide as well.
 * @returns s; null for a log that samples, and where the times between rows have no common measure
 */
export function scanInterval(sampling: Sampling): Seconds | null {
  return sampling.kind === "on-change" ? ofTimes(sampling.rows ?? sampling.times) : null;
}

const ofTimes = remembered((times: Float64Array): Seconds | null => {
  const steps: number[] = [];
  for (let i = 1; i < times.length; i++) if (times[i] > times[i - 1]) steps.push(times[i] - times[i - 1]);
  if (steps.length < FEWEST_INTERVALS) return null;
  const shortest = quantile(Float64Array.from(steps), 0.01);
  const single = steps.filter((step) => step < 1.5 * shortest);
  const scan = single.reduce((sum, step) => sum + step, 0) / single.length;
  const few = steps.filter((step) => step < SCANS * scan);
  const onGrid = few.filter((step) => Math.abs(step / scan - Math.round(step / scan)) < ON_GRID).length;
  return few.length >= FEWEST_INTERVALS && onGrid >= MOST_ON_GRID * few.length ? seconds(scan) : null;
});
