import { studentQuantile } from "./distributions";
import { median, NORMAL_PER_MAD, type Numbers } from "./order-statistics";
import { repeatedMedians, THEIL_SEN_MOST_POINTS } from "./theil-sen";

export type RobustLine = {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeSd: number;
  readonly interceptSd: number;
  /** 95 % interval of the slope for independent errors. */
  readonly low: number;
  readonly high: number;
  /** Spread of the residuals that outliers do not move. */
  readonly residualSpread: number;
  readonly points: number;
  /** Sum of the weights: about how many points carry the line. */
  readonly carried: number;
};

const BISQUARE = 4.685; // 95 % efficiency on normal errors. Holland & Welsch 1977

/**
 * Straight line that outliers do not move: repeated medians for a start and for the scale, then reweighted least squares with the bisquare.
 * Pairs with a missing value are left out. With more than some thousand points the start uses an even selection of them. O(n).
 * Wrong where more than about half of the points are outliers; the interval is too narrow where errors hang together in time.
 * Source: MM-estimation, Yohai 1987; sandwich variance after Huber 1981.
 * @returns null with fewer than four points or one x only
 */
export function robustLine(x: Numbers, y: Numbers): RobustLine | null {
  const { xs, ys, n } = present(x, y);
  const start = n < 4 ? null : startOf(xs, ys);
  if (start === null) return null;
  let { slope, intercept } = start;
  const spread = spreadAround(xs, ys, slope, intercept);
  const weights = new Float64Array(n).fill(1);
  for (let round = 0; round < 50 && spread > 0; round++) {
    for (let i = 0; i < n; i++) weights[i] = bisquare((ys[i] - intercept - slope * xs[i]) / spread);
    const next = weightedLine(xs, ys, weights);
    if (next === null) break;
    const moved =
      Math.abs(next.slope - slope) > 1e-10 * Math.abs(slope) || Math.abs(next.intercept - intercept) > 1e-10 * Math.abs(intercept);
    slope = next.slope;
    intercept = next.intercept;
    if (!moved) break;
  }
  return withSds(xs, ys, slope, intercept, spread, weights);
}

function present(x: Numbers, y: Numbers): { xs: Float64Array; ys: Float64Array; n: number } {
  if (x.length !== y.length) throw new RangeError(`robustLine: ${x.length} x for ${y.length} y`);
  const xs = new Float64Array(x.length);
  const ys = new Float64Array(x.length);
  let n = 0;
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i] + y[i])) continue;
    xs[n] = x[i];
    ys[n++] = y[i];
  }
  return { xs: xs.subarray(0, n), ys: ys.subarray(0, n), n };
}

function startOf(xs: Float64Array, ys: Float64Array): { slope: number; intercept: number } | null {
  const most = Math.min(500, THEIL_SEN_MOST_POINTS);
  if (xs.length <= most) return repeatedMedians(xs, ys);
  const at = Float64Array.from({ length: most }, (_, i) => Math.floor((i * xs.length) / most));
  return repeatedMedians(
    at.map((i) => xs[i]),
    at.map((i) => ys[i]),
  );
}

const spreadAround = (xs: Float64Array, ys: Float64Array, slope: number, intercept: number): number =>
  NORMAL_PER_MAD * median(ys.map((v, i) => Math.abs(v - intercept - slope * xs[i])));

const bisquare = (u: number): number => (Math.abs(u) < BISQUARE ? (1 - (u / BISQUARE) ** 2) ** 2 : 0);

function weightedLine(xs: Float64Array, ys: Float64Array, w: Float64Array): { slope: number; intercept: number } | null {
  let sum = 0;
  let mx = 0;
  let my = 0;
  for (let i = 0; i < xs.length; i++) {
    sum += w[i];
    mx += w[i] * xs[i];
    my += w[i] * ys[i];
  }
  mx /= sum;
  my /= sum;
  let sxx = 0;
  let sxy = 0;
  for (let i = 0; i < xs.length; i++) {
    sxx += w[i] * (xs[i] - mx) ** 2;
    sxy += w[i] * (xs[i] - mx) * (ys[i] - my);
  }
  return sxx > 0 ? { slope: sxy / sxx, intercept: my - (sxy / sxx) * mx } : null;
}

function withSds(xs: Float64Array, ys: Float64Array, slope: number, intercept: number, spread: number, w: Float64Array): RobustLine {
  const n = xs.length;
  let carried = 0;
  let mx = 0;
  for (let i = 0; i < n; i++) {
    carried += w[i];
    mx += w[i] * xs[i];
  }
  mx /= carried;
  let sxx = 0;
  let psi2 = 0;
  let dpsi = 0;
  for (let i = 0; i < n; i++) {
    const u = spread > 0 ? (ys[i] - intercept - slope * xs[i]) / spread : 0;
    sxx += w[i] * (xs[i] - mx) ** 2;
    psi2 += (w[i] * u) ** 2;
    const inside = (u / BISQUARE) ** 2;
    dpsi += inside < 1 ? (1 - inside) * (1 - 5 * inside) : 0;
  }
  // Variance of an M-estimate: scale^2 * mean(psi^2) / mean(psi')^2, per unit of spread in x.
  const noise = dpsi > 0 ? spread * Math.sqrt((psi2 / Math.max(1, n - 2)) * (n / dpsi) ** 2) : Number.NaN;
  const slopeSd = noise * Math.sqrt(carried / n / sxx);
  const interceptSd = noise * Math.sqrt(1 / n + (mx * mx * (carried / n)) / sxx);
  const reach = slopeSd * studentQuantile(0.975, Math.max(1, n - 2));
  return { slope, intercept, slopeSd, interceptSd, low: slope - reach, high: slope + reach, residualSpread: spread, points: n, carried };
}
