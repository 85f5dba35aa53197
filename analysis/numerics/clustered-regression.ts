import { studentQuantile } from "./distributions";
import { inverse } from "./levenberg-marquardt";
import { robustSpread } from "./order-statistics";
import { choleskySolve } from "./small-system";

export type ClusteredFit = {
  readonly coefficients: readonly number[];
  /** Covariance that allows for like errors within a cluster, shape [p][p]. */
  readonly covariance: readonly (readonly number[])[];
  readonly clusters: number;
  /** Half-width of a 95 % interval per unit of standard deviation: Student with clusters - p degrees of freedom. */
  readonly reach: number;
  readonly residualSpread: number;
};

const HUBER = 1.345; // 95 % efficiency with normal errors (Huber 1964)

/**
 * Linear regression with Huber weights and a sandwich covariance by clusters: samples of one run share what the model leaves out.
 * @param columns p columns of shape [n]  @param y shape [n]  @param cluster shape [n], whole numbers
 * @returns null where the columns do not part or there are no more clusters than columns
 * Source: Huber 1964; Liang & Zeger 1986, with the factor G/(G-1) (n-1)/(n-p) for few clusters.
 */
export function clusteredRegression(columns: readonly Float64Array[], y: Float64Array, cluster: ArrayLike<number>): ClusteredFit | null {
  const p = columns.length;
  const n = y.length;
  const scales = columns.map((column) => Math.sqrt(column.reduce((sum, v) => sum + v * v, 0) / Math.max(1, n)) || 1);
  const scaled = columns.map((column, j) => column.map((v) => v / scales[j]));
  let weights = new Float64Array(n).fill(1);
  let coefficients: number[] | null = null;
  let spread = 0;
  for (let turn = 0; turn < 12; turn++) {
    coefficients = choleskySolve(
      crossed(scaled, weights),
      scaled.map((column) => weighted(column, y, weights)),
    );
    if (coefficients === null) return null;
    const residuals = residualsOf(scaled, y, coefficients);
    spread = robustSpread(residuals, 0);
    if (!(spread > 0)) break;
    weights = residuals.map((r) => (Math.abs(r) <= HUBER * spread ? 1 : (HUBER * spread) / Math.abs(r)));
  }
  if (coefficients === null) return null;
  const within = weights.map((w) => (w === 1 ? 1 : 0)); // the slope of Huber's function: 1 inside its reach, 0 outside
  const bread = inverse(crossed(scaled, within));
  const scores = clusterScores(scaled, residualsOf(scaled, y, coefficients), weights, cluster);
  if (bread === null || scores.length <= p) return null;
  const factor = (scores.length / (scores.length - 1)) * ((n - 1) / (n - p));
  const meat = scaled.map((_, i) => scaled.map((_, j) => scores.reduce((sum, score) => sum + score[i] * score[j], 0) * factor));
  const covariance = product(product(bread, meat), bread).map((row, i) => row.map((v, j) => v / (scales[i] * scales[j])));
  return {
    coefficients: coefficients.map((c, j) => c / scales[j]),
    covariance,
    clusters: scores.length,
    reach: studentQuantile(0.975, scores.length - p),
    residualSpread: spread,
  };
}

const crossed = (columns: readonly Float64Array[], weights: Float64Array) =>
  columns.map((a) => columns.map((b) => weighted(a, b, weights)));

function weighted(a: Float64Array, b: Float64Array, weights: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += a[i] * b[i] * weights[i];
  return sum;
}

function residualsOf(columns: readonly Float64Array[], y: Float64Array, coefficients: readonly number[]): Float64Array {
  return y.map((value, i) => columns.reduce((rest, column, j) => rest - coefficients[j] * column[i], value));
}

function clusterScores(
  columns: readonly Float64Array[],
  residuals: Float64Array,
  weights: Float64Array,
  cluster: ArrayLike<number>,
): number[][] {
  const scores = new Map<number, number[]>();
  for (let i = 0; i < residuals.length; i++) {
    const score = scores.get(cluster[i]) ?? columns.map(() => 0);
    for (let j = 0; j < columns.length; j++) score[j] += weights[i] * residuals[i] * columns[j][i];
    scores.set(cluster[i], score);
  }
  return [...scores.values()];
}

const product = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]) =>
  a.map((row) => b[0].map((_, j) => row.reduce((sum, v, k) => sum + v * b[k][j], 0)));
