/**
 * Where a noisy line bends: least squares of two straight lines that meet, y = a + b x + c max(0, x - k), over every knot k between samples
 * first + 1 and last - 1, then the parabola through the best three. By sums from either end, O(n).
 * @param x shape [n], rising  @param y shape [n], no missing values
 * @returns the knot in the unit of x; NaN with fewer than five points
 * Source: segmented regression, Hinkley 1969.
 */
export function bendOf(x: ArrayLike<number>, y: ArrayLike<number>): number {
  const n = x.length;
  if (n < 5) return Number.NaN;
  const origin = x[n >> 1];
  const scale = (x[n - 1] - x[0]) / 2 || 1;
  const t = Float64Array.from({ length: n }, (_, i) => (x[i] - origin) / scale);
  const level = y[n >> 1];
  const all = { n, t: 0, tt: 0, y: 0, ty: 0, yy: 0 };
  for (let i = 0; i < n; i++) {
    const v = y[i] - level;
    all.t += t[i];
    all.tt += t[i] ** 2;
    all.y += v;
    all.ty += t[i] * v;
    all.yy += v * v;
  }
  const errors = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  const right = { n: 0, t: 0, tt: 0, y: 0, ty: 0 };
  let best = -1;
  for (let k = n - 1; k > 0; k--) {
    right.n++;
    right.t += t[k];
    right.tt += t[k] ** 2;
    right.y += y[k] - level;
    right.ty += t[k] * (y[k] - level);
    if (k > n - 2) continue;
    errors[k] = errorWithKnot(all, right, t[k]);
    if (best < 0 || errors[k] < errors[best]) best = k;
  }
  return x[best] + between(errors, best) * (x[best + 1] - x[best - 1]) * 0.5;
}

type Sums = { readonly n: number; readonly t: number; readonly tt: number; readonly y: number; readonly ty: number };

/** Sum of squares left by 1, t and the hinge h = max(0, t - k): the hinge's sums follow from those right of the knot. */
function errorWithKnot(all: Sums & { readonly yy: number }, right: Sums, k: number): number {
  const h = right.t - k * right.n;
  const hh = right.tt - 2 * k * right.t + k * k * right.n;
  const th = right.tt - k * right.t;
  const hy = right.ty - k * right.y;
  const stt = all.tt - all.t ** 2 / all.n;
  const sth = th - (all.t * h) / all.n;
  const shh = hh - h ** 2 / all.n;
  const sty = all.ty - (all.t * all.y) / all.n;
  const shy = hy - (h * all.y) / all.n;
  const syy = all.yy - all.y ** 2 / all.n;
  const det = stt * shh - sth ** 2;
  if (!(det > 1e-12 * stt * shh)) return syy - sty ** 2 / stt;
  const b = (sty * shh - shy * sth) / det;
  const c = (shy * stt - sty * sth) / det;
  return syy - b * sty - c * shy;
}

/** Lowest point of the parabola through three neighbours, in steps from the middle one, -0.5 to 0.5. */
function between(errors: Float64Array, best: number): number {
  const [a, b, c] = [errors[best - 1], errors[best], errors[best + 1]];
  const curve = a - 2 * b + c;
  return Number.isFinite(curve) && curve > 0 ? Math.max(-0.5, Math.min(0.5, (a - c) / (2 * curve))) : 0;
}
