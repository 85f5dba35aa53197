import { studentQuantile } from "./distributions";
import type { Numbers } from "./order-statistics";

export type LeastSquaresLine = {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeSd: number;
  readonly interceptSd: number;
  /** Correlation of x and y. */
  readonly correlation: number;
  readonly residualSd: number;
  readonly points: number;
};

/** Straight line by least squares; pairs with a missing value are left out; two passes. Null with fewer than three points or one x only. */
export function leastSquaresLine(x: Numbers, y: Numbers): LeastSquaresLine | null {
  let n = 0;
  let mx = 0;
  let my = 0;
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i] + y[i])) continue;
    n++;
    mx += (x[i] - mx) / n;
    my += (y[i] - my) / n;
  }
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let i = 0; i < x.length; i++) {
    if (!Number.isFinite(x[i] + y[i])) continue;
    const dx = x[i] - mx;
    const dy = y[i] - my;
    sxx += dx * dx;
    sxy += dx * dy;
    syy += dy * dy;
  }
  if (n < 3 || !(sxx > 0)) return null;
  const slope = sxy / sxx;
  const residualSd = Math.sqrt(Math.max(0, syy - slope * sxy) / (n - 2));
  const slopeSd = residualSd / Math.sqrt(sxx);
  const interceptSd = residualSd * Math.sqrt(1 / n + (mx * mx) / sxx);
  return { slope, intercept: my - slope * mx, slopeSd, interceptSd, correlation: sxy / Math.sqrt(sxx * syy), residualSd, points: n };
}

/** Half the width of the 95 % interval of a coefficient with the given standard deviation and degrees of freedom. */
export const reach95 = (sd: number, degreesOfFreedom: number): number => sd * studentQuantile(0.975, degreesOfFreedom);

export type LeastSquaresFit = {
  /** Shape [p]. */
  readonly coefficients: Float64Array;
  /** Standard deviation of each coefficient, shape [p]. */
  readonly sds: Float64Array;
  readonly residualSd: number;
};

/**
 * Linear least squares by Householder QR. Columns are scaled to about unit length first, which the certified polynomial sets need.
 * @param columns p columns of shape [n]   @param y shape [n]; no missing values
 * @returns null where the columns do not part
 * Source: Golub & Van Loan, Matrix Computations, ch. 5.
 */
export function leastSquares(columns: readonly Numbers[], y: Numbers): LeastSquaresFit | null {
  const n = y.length;
  const p = columns.length;
  const a = columns.map((column) => Float64Array.from(column));
  const scales = a.map(normalise);
  const b = Float64Array.from(y);
  const diagonal = new Float64Array(p);
  for (let j = 0; j < p; j++) {
    diagonal[j] = reflect(a, b, j, n);
    if (!(Math.abs(diagonal[j]) > 1e-15)) return null;
  }
  const coefficients = solveUpper(a, diagonal, b, p);
  let rest = 0;
  for (let i = p; i < n; i++) rest += b[i] * b[i];
  const residualSd = n > p ? Math.sqrt(rest / (n - p)) : Number.NaN;
  const sds = inverseRowNorms(a, diagonal, p).map((norm, j) => (residualSd * norm) / scales[j]);
  return { coefficients: coefficients.map((c, j) => c / scales[j]), sds, residualSd };
}

function normalise(column: Float64Array): number {
  let squares = 0;
  for (const v of column) squares += v * v;
  if (!(squares > 0)) return 1;
  const scale = 2 ** Math.round(Math.log2(squares) / 2); // a power of two divides without rounding
  for (let i = 0; i < column.length; i++) column[i] /= scale;
  return scale;
}

/** One Householder step on column j, applied to the columns after it and to b; returns the diagonal of R. */
function reflect(a: Float64Array[], b: Float64Array, j: number, n: number): number {
  const v = a[j];
  let squares = 0;
  for (let i = j; i < n; i++) squares += v[i] * v[i];
  const length = v[j] > 0 ? -Math.sqrt(squares) : Math.sqrt(squares);
  if (length === 0) return 0;
  v[j] -= length;
  let vv = 0;
  for (let i = j; i < n; i++) vv += v[i] * v[i];
  for (const target of [...a.slice(j + 1), b]) {
    let dot = 0;
    for (let i = j; i < n; i++) dot += v[i] * target[i];
    const factor = (2 * dot) / vv;
    for (let i = j; i < n; i++) target[i] -= factor * v[i];
  }
  return length;
}

function solveUpper(a: Float64Array[], diagonal: Float64Array, b: Float64Array, p: number): Float64Array {
  const x = new Float64Array(p);
  for (let j = p - 1; j >= 0; j--) {
    let rest = b[j];
    for (let k = j + 1; k < p; k++) rest -= a[k][j] * x[k];
    x[j] = rest / diagonal[j];
  }
  return x;
}

/** Lengths of the rows of R^-1: the coefficients' standard deviations per unit of residual. */
function inverseRowNorms(a: Float64Array[], diagonal: Float64Array, p: number): Float64Array {
  const squares = new Float64Array(p);
  for (let column = 0; column < p; column++) {
    const unit = new Float64Array(p);
    unit[column] = 1;
    const x = solveUpper(a, diagonal, unit, p);
    for (let j = 0; j < p; j++) squares[j] += x[j] * x[j];
  }
  return squares.map(Math.sqrt);
}
