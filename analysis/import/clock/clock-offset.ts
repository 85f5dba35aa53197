import { type Measured, measured } from "../../../shared/units/measured";
import { type Seconds, seconds } from "../../../shared/units/quantity";

/** A channel as instants and values; times rise, s, shape [n]; values without NaN. */
export type Trace = { readonly times: Float64Array; readonly values: Float64Array };

/** How two loggers' clocks stand to each other. */
export type ClockOffset = {
  /** Clock of the first = clock of the second + offset, s. */
  readonly offset: Measured<Seconds>;
  /** Correlation (Pearson's) of what both traces hold at the offset, -1 to 1. */
  readonly correlation: number;
  /** The best of the correlations over the lags elsewhere, apart from the same hump: near it, the traces repeat themselves and the offset is doubtful. */
  readonly runnerUp: number;
  readonly certain: boolean;
};

export type CrossCorrelation = {
  /** c(l) for l = -most to most, shape [2 most + 1]. */
  readonly correlations: Float64Array;
  /** Lag of the peak, whole steps, and the rest of a step to the top of the parabola through three points. */
  readonly lag: number;
  readonly rest: number;
};

/** Values at evenly spaced instants, straight between samples, held beyond the ends. */
export function resample({ times, values }: Trace, from: number, step: number, count: number): Float64Array {
  const out = new Float64Array(count);
  for (let i = 0, k = 0; i < count; i++) {
    const t = from + i * step;
    while (k + 1 < times.length && times[k + 1] < t) k++;
    out[i] = between(times, values, k, t);
  }
  return out;
}

function between(times: Float64Array, values: Float64Array, k: number, t: number): number {
  if (t <= times[0]) return values[0];
  const next = k + 1;
  if (next >= times.length) return values[values.length - 1];
  return values[k] + ((values[next] - values[k]) * (t - times[k])) / (times[next] - times[k]);
}

/**
 * Correlation of two even series over lags, each sum a mean over its own overlap. Source: Knapp and Carter 1976, delay estimation by generalised
 * correlation, here unweighted; peak by a parabola through three points.
 * @param a, b same step, shape [n]     @param most greatest lag in steps, below n
 */
export function crossCorrelate(a: Float64Array, b: Float64Array, most: number): CrossCorrelation {
  const [x, sx] = centred(a);
  const [y, sy] = centred(b);
  const n = x.length;
  const correlations = new Float64Array(2 * most + 1);
  let peak = 0;
  for (let l = -most; l <= most; l++) {
    let sum = 0;
    const [from, to] = [Math.max(0, -l), Math.min(n, n - l)];
    for (let i = from; i < to; i++) sum += x[i + l] * y[i];
    correlations[l + most] = sum / (to - from) / (sx * sy);
    if (correlations[l + most] > correlations[peak]) peak = l + most;
  }
  const [before, top, after] = [correlations[peak - 1], correlations[peak], correlations[peak + 1]];
  const bend = before - 2 * top + after;
  return { correlations, lag: peak - most, rest: bend < 0 ? (0.5 * (before - after)) / bend : 0 };
}

/** Mean removed, and the standard deviation. */
function centred(values: Float64Array): readonly [Float64Array, number] {
  let sum = 0;
  for (const v of values) sum += v;
  const out = values.map((v) => v - sum / values.length);
  let squares = 0;
  for (const v of out) squares += v * v;
  return [out, Math.sqrt(squares / values.length)];
}

/** Mean square of a(tb + offset) - b over the samples of b that fall within a; NaN where none does. */
export function meanSquareAt(a: Trace, b: Trace, offset: number): number {
  const end = a.times[a.times.length - 1];
  let [sum, count, k] = [0, 0, 0];
  for (let i = 0; i < b.times.length; i++) {
    const t = b.times[i] + offset;
    if (t < a.times[0] || t > end) continue;
    while (k + 1 < a.times.length && a.times[k + 1] < t) k++;
    const difference = between(a.times, a.values, k, t) - b.values[i];
    sum += difference * difference;
    count++;
  }
  return sum / count;
}

/** Pearson's correlation of a(tb + offset) with b over the samples of b that fall within a; NaN where they are none or do not move. */
export function correlationAt(a: Trace, b: Trace, offset: number): number {
  const end = a.times[a.times.length - 1];
  let [n, sx, sy, sxx, syy, sxy, k] = [0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < b.times.length; i++) {
    const t = b.times[i] + offset;
    if (t < a.times[0] || t > end) continue;
    while (k + 1 < a.times.length && a.times[k + 1] < t) k++;
    const [x, y] = [between(a.times, a.values, k, t), b.values[i]];
    n++;
    sx += x;
    sy += y;
    sxx += x * x;
    syy += y * y;
    sxy += x * y;
  }
  return (n * sxy - sx * sy) / Math.sqrt((n * sxx - sx * sx) * (n * syy - sy * sy));
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** The offset of least mean square between two bounds: the best of a scan, narrowed by golden section. */
export function leastSquaresOffset(
  a: Trace,
  b: Trace,
  low: number,
  high: number,
): { readonly offset: number; readonly meanSquare: number } {
  const scan = 24;
  const at = (k: number) => low + ((high - low) * k) / scan;
  let best = 0;
  for (let k = 1; k <= scan; k++) if (meanSquareAt(a, b, at(k)) < meanSquareAt(a, b, at(best))) best = k;
  let [from, to] = [at(Math.max(0, best - 1)), at(Math.min(scan, best + 1))];
  let [left, right] = [to - GOLDEN * (to - from), from + GOLDEN * (to - from)];
  let [atLeft, atRight] = [meanSquareAt(a, b, left), meanSquareAt(a, b, right)];
  while (to - from > 1e-7 * Math.max(1, Math.abs(low))) {
    if (atLeft < atRight) {
      [to, right, atRight] = [right, left, atLeft];
      left = to - GOLDEN * (to - from);
      atLeft = meanSquareAt(a, b, left);
    } else {
      [from, left, atLeft] = [left, right, atRight];
      right = from + GOLDEN * (to - from);
      atRight = meanSquareAt(a, b, right);
    }
  }
  const offset = (from + to) / 2;
  return { offset, meanSquare: meanSquareAt(a, b, offset) };
}

const MOST_POINTS = 16_000;
const LEAST_POINTS = 30;

/**
 * Offset of two loggers' clocks from a quantity that both saw: cross-correlation on a common even grid finds it to a step, least squares of the
 * standardised traces refines it, a parabola through the mean square looks through its ripple. The interval is 1.96 times sqrt(s2 / sum (dx/dt)^2), the noise s2 taken from what is left at the best offset and
 * the slopes from the bend of the mean square there: white noise is assumed; slow differences between the traces make it too narrow.
 * @param most greatest offset looked for, s
 * @returns null where the traces hardly overlap or one of them does not move
 */
export function findClockOffset(a: Trace, b: Trace, most: number): ClockOffset | null {
  const from = Math.max(a.times[0], b.times[0] - most);
  const to = Math.min(a.times[a.times.length - 1], b.times[b.times.length - 1] + most);
  const usual = Math.max(usualStep(a.times), usualStep(b.times));
  if (!(to - from > LEAST_POINTS * usual)) return null;
  const step = Math.max(usual / 2, (to - from) / MOST_POINTS);
  const count = Math.floor((to - from) / step);
  const lags = Math.min(Math.ceil(most / step), Math.floor(count / 2));
  const [x, y] = [resample(a, from, step, count), resample(b, from, step, count)];
  if (centred(x)[1] === 0 || centred(y)[1] === 0 || lags < 2) return null;
  const found = crossCorrelate(x, y, lags);
  const rough = (found.lag + found.rest) * step;
  const [za, zb] = [standardised(a), standardised(b)];
  const fine = leastSquaresOffset(za, zb, rough - 3 * step, rough + 3 * step);
  const bowl = bowlAround(za, zb, fine.offset, Math.max(usual, 2 * step));
  const half = 1.96 * (bowl.bend > 0 ? Math.sqrt((2 * Math.max(0, bowl.least)) / (bowl.bend * b.times.length)) : 10 * step);
  // the correlations over the lags are measured by the spread of the whole traces: where both move most in what they share, they pass 1
  const peak = found.correlations[found.lag + lags];
  const correlation = correlationAt(za, zb, bowl.offset);
  const runnerUp = bestElsewhere(found, lags);
  return {
    offset: measured(seconds(bowl.offset), seconds(bowl.offset - half), seconds(bowl.offset + half)),
    correlation,
    runnerUp,
    certain: peak > 0.6 && correlation > 0.6 && runnerUp < 0.9 * peak && Math.abs(found.lag) < lags,
  };
}

function usualStep(times: Float64Array): number {
  return times.length < 2 ? Number.POSITIVE_INFINITY : (times[times.length - 1] - times[0]) / (times.length - 1);
}

function standardised({ times, values }: Trace): Trace {
  const [out, deviation] = centred(values);
  return { times, values: out.map((v) => v / deviation) };
}

/**
 * A parabola through the mean square around its least: straight lines between noisy samples average some noise away, most of it half way, which
 * ripples the mean square with the step of the first trace and draws its very least aside; the parabola looks through the ripple.
 */
function bowlAround(
  a: Trace,
  b: Trace,
  offset: number,
  reach: number,
): { readonly offset: number; readonly least: number; readonly bend: number } {
  const half = 12;
  const at = (k: number) => (k * reach) / half;
  let [n, s2, s4, y0, y1, y2] = [0, 0, 0, 0, 0, 0];
  for (let k = -half; k <= half; k++) {
    const [u, y] = [at(k), meanSquareAt(a, b, offset + at(k))];
    n++;
    s2 += u * u;
    s4 += u ** 4;
    y0 += y;
    y1 += u * y;
    y2 += u * u * y;
  }
  const curve = (n * y2 - s2 * y0) / (n * s4 - s2 * s2);
  const slope = y1 / s2;
  const level = (y0 - curve * s2) / n;
  const aside = curve > 0 ? -slope / (2 * curve) : 0;
  const kept = Math.abs(aside) < reach ? aside : 0;
  return { offset: offset + kept, least: level + slope * kept + curve * kept * kept, bend: 2 * curve };
}

/** The best correlation beyond the first dip on either side of the peak. */
function bestElsewhere({ correlations, lag }: CrossCorrelation, most: number): number {
  const peak = lag + most;
  const half = 0.5 * correlations[peak];
  let [left, right] = [peak, peak];
  while (left > 0 && correlations[left] > half) left--;
  while (right < correlations.length - 1 && correlations[right] > half) right++;
  let best = 0;
  for (let i = 0; i < correlations.length; i++) if ((i < left || i > right) && correlations[i] > best) best = correlations[i];
  return best;
}
