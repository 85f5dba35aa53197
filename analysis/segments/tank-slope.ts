import { varianceInflation } from "../numerics/autocorrelation";
import { mean } from "../numerics/moments";
import { median } from "../numerics/order-statistics";
import type { Estimate } from "../numerics/pooled-mean";
import { leastSquaresLine } from "../numerics/regression";
import { repeatedMedians } from "../numerics/theil-sen";
import type { TankTrace } from "./tank-windows";

/**
 * 1/K that most of the drawn water agrees on, 1/J: each rest's own slope by repeated medians, which a fall beyond the knee does not move, and of these
 * the median with the weight of their water, which counts up to the usual: a rest with far more was helped by the pump.
 */
export function usualSlope(traces: readonly TankTrace[]): number {
  const unseen = idleFall(traces) ?? 0;
  const own = traces.map((trace) => roughSlope(trace, unseen)).filter(({ slope }) => Number.isFinite(slope));
  own.sort((a, b) => a.slope - b.slope);
  const most = median(own.map(({ water }) => water));
  const half = own.reduce((sum, { water }) => sum + Math.min(water, most), 0) / 2;
  let sum = 0;
  for (const { slope, water } of own) {
    sum += Math.min(water, most);
    if (sum >= half) return slope;
  }
  return Number.NaN;
}

const ROUGH_POINTS = 24; // along the drawn water

/** Points evenly spread over the water, not over time: a long idle part says nothing of the slope. */
function roughSlope({ times, drawn, inverse, calmUntil }: TankTrace, unseen: number): { slope: number; water: number } {
  const water = drawn[Math.max(0, calmUntil - 1)];
  const x: number[] = [];
  const y: number[] = [];
  for (let i = 0, next = 0; i < calmUntil; i++) {
    if (drawn[i] < next && i < calmUntil - 1) continue;
    x.push(drawn[i]);
    y.push(inverse[i] - unseen * (times[i] - times[0]));
    next = drawn[i] + water / ROUGH_POINTS;
  }
  return { slope: water > 0 && x.length >= 3 ? (repeatedMedians(x, y)?.slope ?? Number.NaN) : Number.NaN, water };
}

const LEAST_IDLE = 4; // points
const LEAST_IDLE_PARTS = 5;
/** Points before the meter's first water at which a draw may have begun already. */
const MAY_HAVE_BEGUN = 2;

/**
 * How fast 1/p rises while the meter counts no water at all, 1/(Pa s), never below 0: what no meter sees, whatever the tank's own constant. The begin of each
 * rest up to its first draw, not so near to its end that the tank may be empty. Null where it never counts none for long enough.
 */
function idleFall(traces: readonly TankTrace[]): number | null {
  let sxy = 0;
  let sxx = 0;
  let parts = 0;
  for (const { times, inverse, drawn, calmUntil } of traces) {
    const until = times[0] + BEFORE_KNEE * (times[calmUntil - 1] - times[0]);
    let n = 0;
    while (n < calmUntil && drawn[n] === drawn[0] && times[n] <= until) n++;
    if (n < calmUntil) n -= MAY_HAVE_BEGUN;
    if (n < LEAST_IDLE) continue;
    const line = leastSquaresLine(times.subarray(0, n), inverse.subarray(0, n));
    const length = times[n - 1] - times[0];
    sxy += (line?.slope ?? 0) * length ** 2;
    sxx += length ** 2;
    parts++;
  }
  return parts >= LEAST_IDLE_PARTS ? Math.max(0, sxy / sxx) : null;
}

/**
 * How fast 1/p rises by what no meter sees (a leak back through the pump or before the meter), 1/(Pa s): read while the meter shows no flow, else the common
 * slope over time of what the metered water leaves unexplained, over all rests. 0 where rests are too short to tell it from the draws, and never below 0.
 */
export function leakSlope(traces: readonly TankTrace[], slope: number): number {
  const idle = idleFall(traces);
  if (idle !== null) return idle;
  let sxy = 0;
  let sxx = 0;
  for (const { times, drawn, inverse, calmUntil } of traces) {
    let n = calmUntil;
    while (n > 4 && times[n - 1] - times[0] > BEFORE_KNEE * (times[calmUntil - 1] - times[0])) n--;
    if (n < 4 || times[n - 1] - times[0] < LEAST_REST) continue;
    if (slope * drawn[n - 1] > 0.5 * (inverse[n - 1] - inverse[0])) continue; // mostly draws: their scatter would pass for a leak
    sxy += (inverse[n - 1] - inverse[0] - slope * drawn[n - 1]) * (times[n - 1] - times[0]);
    sxx += (times[n - 1] - times[0]) ** 2;
  }
  return sxx > 0 ? Math.max(0, sxy / sxx) : 0;
}

const LEAST_REST = 60; // s
const BEFORE_KNEE = 0.9; // of a rest: a tank that runs empty does so at its end
const STRAIGHT_NOISES = 3; // noise spreads about the line
const STRAIGHT_SHARE = 0.05; // of the rise, about the line

/**
 * Slope of one trace up to (not including) `end`, leak taken off: least squares of 1/p on volume and on the flow of the instant. The flow's part takes up what
 * shifts a draw as a whole against the rest before it: a sensor that lags by tau reads V(t - tau), which is V - tau q; a draw that began somewhere between
 * two samples; friction. Left in, such a shift tilts the line of a short fast draw by its share of the draw's length. Variance allows for residuals that
 * hang together. NaN where too little was drawn, or where the points do not lie along a line at all: then the pump gave a part of the water.
 */
export function slopeOfTrace(trace: TankTrace, end: number, leak: number, noise: number, usual?: number): Estimate {
  const { drawn, flow } = trace;
  const n = end;
  if (n < 5) return { value: Number.NaN, variance: Number.NaN };
  const byFlow = beside(flow.subarray(0, n));
  const x = byFlow(drawn.subarray(0, n));
  const left = byFlow(withoutLeak(trace, n, leak));
  const sxx = product(x, x);
  const value = product(x, left) / sxx;
  if (!(sxx > 0)) return { value: Number.NaN, variance: Number.NaN };
  let before = 0;
  let lagged = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const rest = left[i] - value * x[i];
    if (i > 0) lagged += rest * before;
    squares += rest * rest;
    before = rest;
  }
  const straight = Math.max(STRAIGHT_NOISES * noise, STRAIGHT_SHARE * value * (drawn[n - 1] - drawn[0]));
  if (squares / n > straight ** 2) return { value: Number.NaN, variance: Number.NaN };
  const inflation = squares > 0 ? varianceInflation(lagged / squares, n) : 1;
  const variance = (Math.max(squares / Math.max(1, n - 3), noise ** 2) * inflation) / sxx + value ** 2 * doubtOfVolume(trace, n);
  return Math.sqrt(variance) < 0.5 * (usual ?? value) ? { value, variance } : { value: Number.NaN, variance: Number.NaN };
}

/** The first n points of 1/p, leak taken off. */
function withoutLeak({ inverse, times }: TankTrace, n: number, leak: number): Float64Array {
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) y[i] = inverse[i] - leak * (times[i] - times[0]);
  return y;
}

/** Takes from a column its mean and what goes along with `by`. */
function beside(by: Float64Array): (column: Float64Array) => Float64Array {
  const own = centred(by);
  const squares = product(own, own);
  return (column) => {
    const left = centred(column);
    const share = squares > 0 ? product(left, own) / squares : 0;
    for (let i = 0; i < left.length; i++) left[i] -= share * own[i];
    return left;
  };
}

function centred(column: Float64Array): Float64Array {
  const middle = mean(column);
  const left = new Float64Array(column.length);
  for (let i = 0; i < left.length; i++) left[i] = column[i] - middle;
  return left;
}

function product(a: Float64Array, b: Float64Array, onto = 0): number {
  let sum = onto;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/** Square of the relative doubt of a drawn volume: a flow that changes between two samples did so at an unknown instant (uniform). */
export function doubtOfVolume({ times, drawn, flow }: TankTrace, end: number): number {
  let variance = 0;
  for (let i = 1; i < end; i++) variance += ((flow[i] - flow[i - 1]) * (times[i] - times[i - 1])) ** 2 / 12;
  return variance / drawn[end - 1] ** 2;
}

const CLEAR_FRICTION = 4; // standard deviations

/**
 * Friction between tank and sensor, Pa per (m3/s)^2: what 1/p jumps by as flow changes, common to all rests, beside the common slope over volume.
 * 0 where it does not stand out. Takes the traces up to the ends given.
 */
export function frictionOf(traces: readonly TankTrace[], ends: readonly number[], leak: number): number {
  const sums = { xx: 0, xz: 0, zz: 0, xy: 0, zy: 0, yy: 0, n: 0 };
  traces.forEach((trace, k) => {
    const n = ends[k];
    const x = trace.drawn.subarray(0, n);
    const z = pull(trace).subarray(0, n);
    const y = withoutLeak(trace, n, leak);
    addProducts(sums, centred(x), centred(z), centred(y));
    sums.n += n;
  });
  const free = sums.zz - sums.xz ** 2 / sums.xx;
  if (!(free > 0.01 * sums.zz)) return 0;
  const friction = (sums.zy - (sums.xz * sums.xy) / sums.xx) / free;
  const slope = (sums.xy - friction * sums.xz) / sums.xx;
  const left = Math.max(0, sums.yy - slope * sums.xy - friction * sums.zy) / sums.n;
  return friction > CLEAR_FRICTION * Math.sqrt(left / free) ? friction : 0;
}

type Sums = { xx: number; xz: number; zz: number; xy: number; zy: number; yy: number };

function addProducts(sums: Sums, x: Float64Array, z: Float64Array, y: Float64Array): void {
  sums.xx = product(x, x, sums.xx);
  sums.xz = product(x, z, sums.xz);
  sums.zz = product(z, z, sums.zz);
  sums.xy = product(x, y, sums.xy);
  sums.zy = product(z, y, sums.zy);
  sums.yy = product(y, y, sums.yy);
}

/** The trace as a sensor at the tank itself would have seen it. */
export function withoutFriction(trace: TankTrace, friction: number): TankTrace {
  if (friction === 0) return trace;
  const inverse = pull(trace);
  for (let i = 0; i < inverse.length; i++) inverse[i] = trace.inverse[i] - friction * inverse[i];
  return { ...trace, inverse };
}

/** By how much 1/p at the sensor rises per unit of friction: q |q| / p^2. */
function pull({ flow, inverse }: TankTrace): Float64Array {
  const rise = new Float64Array(flow.length);
  for (let i = 0; i < rise.length; i++) rise[i] = flow[i] * Math.abs(flow[i]) * inverse[i] ** 2;
  return rise;
}
