import type { PressureProfile } from "../../shared/findings/comparison";
import type { Run } from "../../shared/findings/segment";
import type { Clock } from "../../shared/record/clock";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../shared/record/sampling";
import { zoneOffsets } from "../import/clock/zone-offsets";
import { median, quantiles } from "../numerics/order-statistics";

const DAY = 86400;
const QUARTER = 900;
const CYCLE_STEPS = 80; // points of a cycle: as fine as its picture
/** More samples or cycles than this are thinned evenly: the quantiles do not change by it. */
const [MOST_SAMPLES, MOST_CYCLES] = [400_000, 400];
/** Of a cycle shown before its start, and a bin needs this many values before its quantiles mean anything. */
const BEFORE = 0.2;
const LEAST_VALUES = 3;

/** All days of the site's clock over one another in quarters of an hour; null for a log with elapsed time or under a day. */
export function dayProfile(pressure: Channel, clock: Clock, duration: number): PressureProfile | null {
  if (clock.kind === "elapsed" || duration < DAY) return null;
  const { from, offsets } =
    clock.zone === null ? { from: [0], offsets: [0] } : zoneOffsets(clock.zone, clock.epoch, clock.epoch + duration);
  const bins = emptyBins(DAY / QUARTER);
  const n = sampleCount(pressure.sampling);
  const stride = Math.max(1, Math.floor(n / MOST_SAMPLES));
  let zone = 0;
  for (let i = 0; i < n; i += stride) {
    const unix = clock.epoch + timeAt(pressure.sampling, i);
    while (zone + 1 < from.length && unix >= from[zone + 1]) zone++;
    const ofDay = (((unix + offsets[zone]) % DAY) + DAY) % DAY;
    if (!Number.isNaN(pressure.values[i])) bins[Math.floor(ofDay / QUARTER)].push(pressure.values[i]);
  }
  return profileOf(bins, Math.max(1, Math.round(duration / DAY)), 0, QUARTER);
}

/** All cycles of the pump over one another from their starts on, over one and a fifth of the usual cycle; null under three cycles. */
export function cycleProfile(pressure: Channel, runs: readonly Run[]): PressureProfile | null {
  const starts = runs.filter((run) => run.from > 0).map((run): number => run.from);
  if (starts.length <= LEAST_VALUES) return null;
  const length = median(Float64Array.from(starts.slice(1), (start, i) => start - starts[i]));
  const stepS = (length * (1 + BEFORE)) / CYCLE_STEPS;
  const bins = emptyBins(CYCLE_STEPS);
  const stride = Math.ceil(starts.length / MOST_CYCLES);
  for (let k = 0; k < starts.length; k += stride) {
    const from = starts[k] - BEFORE * length;
    const until = Math.min(starts[k] + length, starts[k + 1] ?? Number.POSITIVE_INFINITY);
    for (let i = indexAtOrAfter(pressure.sampling, from); i < sampleCount(pressure.sampling); i++) {
      const t = timeAt(pressure.sampling, i);
      if (t >= until) break;
      if (!Number.isNaN(pressure.values[i])) bins[Math.min(CYCLE_STEPS - 1, Math.floor((t - from) / stepS))].push(pressure.values[i]);
    }
  }
  return profileOf(bins, starts.length, -BEFORE * length, stepS);
}

const emptyBins = (count: number): number[][] => Array.from({ length: count }, () => []);

function profileOf(bins: readonly (readonly number[])[], count: number, fromS: number, stepS: number): PressureProfile {
  const rows = bins.map((bin) => (bin.length < LEAST_VALUES ? [null, null, null] : quantiles(bin, [0.1, 0.5, 0.9]).map(Math.round)));
  const column = (q: number) => rows.map((row) => row[q]);
  return { count, fromS, stepS, low: column(0), middle: column(1), high: column(2) };
}
