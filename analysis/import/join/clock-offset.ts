import { mean } from "../../numerics/moments";

/** Instants [n], s, strictly rising, and values [n]; NaN where missing. */
export type Trace = { readonly times: Float64Array; readonly values: ArrayLike<number> };

/** Seconds to add to the second trace's instants to lay it over the first, with its 95 % interval. */
export type ClockOffset = { readonly offset: number; readonly low: number; readonly high: number; readonly correlation: number };

const COARSE_POINTS = 4096;
const FINE_POINTS = 16_384;
/** Below this the two traces do not show the same events; a second peak above this share of the first leaves the choice open. */
const LEAST_CORRELATION = 0.35;
const RIVAL_SHARE = 0.8;
const LARGEST_OFFSET = 13 * 3600; // a wrong zone or summer time with a wrong half of the day

/**
 * Offset of two clocks by cross-correlation of the changes of two traces that see the same events: first over all offsets on a coarse grid, then
 * finely around the best. The interval is the Cramer-Rao bound for a delay, var = (1 - r^2) / (r^2 n b^2) with b^2 the mean-square bandwidth from the
 * curvature of the peak (Knapp and Carter 1976, IEEE Trans. ASSP 24, 320-327, from memory), widened by the rounding of the grid.
 * @returns null where the traces share no clear pattern
 */
export function findClockOffset(a: Trace, b: Trace, step: number): ClockOffset | null {
  const span = Math.min(lengthOf(a), lengthOf(b));
  if (!(span > 50 * step)) return null;
  const reach = Math.min(LARGEST_OFFSET, Math.abs(middleOf(a) - middleOf(b)) + span / 2);
  const coarseStep = Math.max(step, span / COARSE_POINTS);
  const coarse = correlate(a, b, coarseStep, 0, reach);
  const top = peakOf(coarse);
  if (top === null || top.value < LEAST_CORRELATION || rivalOf(coarse, top.index) > RIVAL_SHARE * top.value) return null;
  const around = (top.index - coarse.middle) * coarseStep;
  const fine = coarseStep === step ? coarse : correlate(a, b, step, around, 4 * coarseStep);
  const peak = peakOf(fine);
  if (peak === null || peak.value < LEAST_CORRELATION) return null;
  const centre = coarseStep === step ? 0 : around;
  const lag = centre + (peak.index + peak.shift - fine.middle) * step;
  const curvature = Math.max(1e-9, peak.curvature) / step ** 2 / peak.value;
  const r = Math.min(0.9999, peak.value);
  const deviation = Math.hypot(Math.sqrt((1 - r * r) / (r * r * fine.pairs * curvature)), step / Math.sqrt(12));
  return { offset: -lag, low: -lag - 1.96 * deviation, high: -lag + 1.96 * deviation, correlation: peak.value };
}

const middleOf = ({ times }: Trace) => (times[0] + times[times.length - 1]) / 2;
const lengthOf = ({ times }: Trace) => times[times.length - 1] - times[0];

type Correlation = { readonly values: Float64Array; readonly middle: number; readonly pairs: number };

/** Correlation of the changes of a(t) and b(t + lag) for lags around `centre`, on a grid over what both can share. */
function correlate(a: Trace, b: Trace, step: number, centre: number, reach: number): Correlation {
  const lags = Math.min(COARSE_POINTS, Math.max(2, Math.ceil(reach / step)));
  const start = Math.max(a.times[0], b.times[0] - centre) - reach;
  const end = Math.min(a.times[a.times.length - 1], b.times[b.times.length - 1] - centre) + reach;
  const count = Math.max(8, Math.min(FINE_POINTS, Math.floor((end - start) / step)));
  const from = start + (end - start - count * step) / 2;
  const x = changes(a, from, step, count);
  const y = changes(b, from + centre, step, count);
  const values = new Float64Array(2 * lags + 1);
  const least = Math.min(energy(x), energy(y)) * 0.2;
  for (let lag = -lags; lag <= lags; lag++) {
    let [sum, xx, yy] = [0, 0, 0];
    const last = Math.min(count, count - lag);
    for (let i = Math.max(0, -lag); i < last; i++) {
      const [u, v] = [x[i], y[i + lag]];
      if (u === 0 && v === 0) continue;
      sum += u * v;
      xx += u * u;
      yy += v * v;
    }
    // Too little of either in the overlap is no evidence.
    values[lag + lags] = Math.min(xx, yy) > least && least > 0 ? sum / Math.sqrt(xx * yy) : 0;
  }
  return { values, middle: lags, pairs: x.reduce((n, value) => n + (value === 0 ? 0 : 1), 0) };
}

const energy = (values: Float64Array) => values.reduce((sum, value) => sum + value * value, 0);

/** Differences of the means of neighbouring cells of a grid, shape [count]; 0 where one is empty, so that it adds nothing. */
function changes({ times, values }: Trace, from: number, step: number, count: number): Float64Array {
  const sums = new Float64Array(count + 1);
  const counts = new Uint32Array(count + 1);
  for (let i = 0; i < times.length; i++) {
    const cell = Math.floor((times[i] - from) / step + 1e-9);
    if (cell < 0 || cell > count || Number.isNaN(values[i])) continue;
    sums[cell] += values[i];
    counts[cell]++;
  }
  const differences = new Float64Array(count);
  for (let i = 0; i < count; i++)
    if (counts[i] > 0 && counts[i + 1] > 0) differences[i] = sums[i + 1] / counts[i + 1] - sums[i] / counts[i];
  const level = mean(differences.filter((value) => value !== 0));
  return Number.isFinite(level) ? differences.map((value) => (value === 0 ? 0 : value - level)) : differences;
}

function peakOf({ values }: Correlation): { index: number; value: number; shift: number; curvature: number } | null {
  let index = 0;
  for (let i = 1; i < values.length; i++) if (values[i] > values[index]) index = i;
  if (index === 0 || index === values.length - 1) return null;
  const [left, middle, right] = [values[index - 1], values[index], values[index + 1]];
  const curvature = 2 * middle - left - right;
  return { index, value: middle, shift: curvature > 0 ? (right - left) / (2 * curvature) : 0, curvature };
}

/** Highest correlation that is no shoulder of the peak: behind the first fall to nothing on each side. */
function rivalOf({ values }: Correlation, peak: number): number {
  let [left, right] = [peak, peak];
  while (left > 0 && values[left] > 0.1 * values[peak]) left--;
  while (right < values.length - 1 && values[right] > 0.1 * values[peak]) right++;
  let rival = 0;
  for (let i = 0; i < values.length; i++) if ((i < left || i > right) && values[i] > rival) rival = values[i];
  return rival;
}
