import { normalQuantile } from "./distributions";
import { median, type Numbers, quantileInPlace, selectInPlace } from "./order-statistics";

export type TheilSenLine = {
  readonly slope: number;
  /** median(y) - slope * median(x). */
  readonly intercept: number;
  /** Interval of the slope for independent errors; see `residualCorrelation` for widening. */
  readonly low: number;
  readonly high: number;
  readonly points: number;
};

/** More points than this make too many pairs: average them into blocks first. */
export const THEIL_SEN_MOST_POINTS = 2500;

/**
 * Line through the median of all pairwise slopes; up to 29 % of the points may be wrong.
 * Pairs where x or y is missing are left out. O(n^2): at most THEIL_SEN_MOST_POINTS points.
 * Source: Theil 1950; Sen, JASA 63 (1968) 1379; limits as scipy.stats.theilslopes, from the variance of Kendall's S with ties.
 * @returns null with fewer than two different x   @throws RangeError on unequal shapes or too many points
 */
export function theilSen(x: Numbers, y: Numbers, level = 0.95): TheilSenLine | null {
  if (x.length !== y.length) throw new RangeError(`theilSen: ${x.length} x for ${y.length} y`);
  const { xs, ys } = presentPairs(x, y);
  const n = xs.length;
  if (n > THEIL_SEN_MOST_POINTS) throw new RangeError(`theilSen: ${n} points, at most ${THEIL_SEN_MOST_POINTS}`);
  const slopes = pairwiseSlopes(xs, ys);
  const pairs = slopes.length;
  if (pairs === 0) return null;
  const middle = (pairs - 1) >> 1;
  const slope = quantileInPlace(slopes, 0.5);
  const reach = normalQuantile((1 + level) / 2) * Math.sqrt(varianceOfS(xs, ys));
  const lowAt = Math.max(roundHalfToEven((pairs - reach) / 2) - 1, 0);
  const highAt = Math.min(roundHalfToEven((pairs + reach) / 2), pairs - 1);
  return {
    slope,
    intercept: median(ys) - slope * median(xs),
    // the median has parted the slopes: each limit lies in its own half
    low: lowAt <= middle ? selectInPlace(slopes, lowAt, 0, middle) : selectInPlace(slopes, lowAt),
    high: highAt >= middle ? selectInPlace(slopes, highAt, middle, pairs - 1) : selectInPlace(slopes, highAt),
    points: n,
  };
}

/**
 * Repeated medians (Siegel 1982): for each point the median slope to all others, then the median of these. Up to half of the points may be wrong.
 * @returns null with fewer than two different x   @throws RangeError as `theilSen`
 */
export function repeatedMedians(x: Numbers, y: Numbers): { readonly slope: number; readonly intercept: number } | null {
  const { xs, ys } = presentPairs(x, y);
  const n = xs.length;
  if (n > THEIL_SEN_MOST_POINTS) throw new RangeError(`repeatedMedians: ${n} points, at most ${THEIL_SEN_MOST_POINTS}`);
  const own = new Float64Array(n);
  const buffer = new Float64Array(n);
  let kept = 0;
  for (let i = 0; i < n; i++) {
    let m = 0;
    for (let j = 0; j < n; j++) if (xs[j] !== xs[i]) buffer[m++] = (ys[j] - ys[i]) / (xs[j] - xs[i]);
    if (m > 0) own[kept++] = quantileInPlace(buffer, 0.5, m);
  }
  if (kept === 0) return null;
  const slope = median(own.subarray(0, kept));
  return { slope, intercept: median(ys.map((v, i) => v - slope * xs[i])) };
}

/** Kendall's S and the Mann-Kendall test for a trend: tie-corrected variance, continuity correction. Mann 1945. */
export function mannKendall(x: Numbers, y: Numbers): { readonly s: number; readonly variance: number; readonly z: number } {
  const { xs, ys } = presentPairs(x, y);
  let s = 0;
  for (let i = 0; i < xs.length; i++) for (let j = i + 1; j < xs.length; j++) s += Math.sign(ys[j] - ys[i]) * Math.sign(xs[j] - xs[i]);
  const variance = varianceOfS(xs, ys);
  return { s, variance, z: (s - Math.sign(s)) / Math.sqrt(variance) };
}

function presentPairs(x: Numbers, y: Numbers): { readonly xs: Float64Array; readonly ys: Float64Array } {
  const xs = new Float64Array(x.length);
  const ys = new Float64Array(x.length);
  let n = 0;
  for (let i = 0; i < x.length; i++) {
    if (Number.isFinite(x[i]) && Number.isFinite(y[i])) {
      xs[n] = x[i];
      ys[n++] = y[i];
    }
  }
  return { xs: xs.subarray(0, n), ys: ys.subarray(0, n) };
}

/** Where the slopes of up to so many points are put: used again by the next call, since fresh memory costs more than the slopes. */
const FEW_POINTS = 128;
let slopesOfFew: Float64Array | null = null;

function pairwiseSlopes(xs: Float64Array, ys: Float64Array): Float64Array {
  const n = xs.length;
  slopesOfFew ??= new Float64Array((FEW_POINTS * (FEW_POINTS - 1)) / 2);
  const slopes = n <= FEW_POINTS ? slopesOfFew : new Float64Array((n * (n - 1)) / 2);
  let m = 0;
  for (let i = 0; i < n; i++) {
    const x = xs[i];
    const y = ys[i];
    for (let j = i + 1; j < n; j++) {
      const dx = xs[j] - x;
      if (dx !== 0) slopes[m++] = (ys[j] - y) / dx;
    }
  }
  return slopes.subarray(0, m);
}

function varianceOfS(xs: Float64Array, ys: Float64Array): number {
  const n = xs.length;
  return (n * (n - 1) * (2 * n + 5) - tieTerm(xs) - tieTerm(ys)) / 18;
}

function tieTerm(values: Float64Array): number {
  const sorted = values.slice().sort();
  let term = 0;
  for (let i = 0; i < sorted.length; ) {
    let j = i;
    while (j < sorted.length && sorted[j] === sorted[i]) j++;
    const k = j - i;
    term += k * (k - 1) * (2 * k + 5);
    i = j;
  }
  return term;
}

function roundHalfToEven(x: number): number {
  const floor = Math.floor(x);
  if (x - floor !== 0.5) return Math.round(x);
  return floor % 2 === 0 ? floor : floor + 1;
}
