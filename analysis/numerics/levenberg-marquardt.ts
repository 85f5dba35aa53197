import { atOneGo } from "./at-one-go";
import { choleskySolve } from "./small-system";

/** A problem of least squares with bounds. Residuals are divided by their standard deviation by the caller; prior knowledge is a residual too. */
export type LeastSquaresProblem = {
  readonly start: readonly number[]; // shape [p]
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Shape [n], the same n at every call. */
  residuals(parameters: readonly number[]): ArrayLike<number>;
  /** Step of each parameter for its slope; a simulation needs one larger than its own grain. Default 1e-6 of its size. */
  readonly steps?: readonly number[];
  /** Residuals beyond this many standard deviations count as if nearer (Huber); Infinity: plain squares. */
  readonly huber?: number;
  readonly iterations?: number;
};

export type LeastSquaresSolution = {
  readonly parameters: readonly number[];
  /** Inverse of the curvature J'WJ: shape [p][p]. Null where the residuals do not fix all parameters. */
  readonly covariance: readonly (readonly number[])[] | null;
  /** Weighted sum of squares at the end. */
  readonly cost: number;
  readonly converged: boolean;
};

/**
 * Least squares by Levenberg-Marquardt: damping scaled by the curvature's diagonal, slopes by differences that turn inward at a bound,
 * bounds by clipping. Finds a local optimum: start near.
 * @throws RangeError where the start lies outside its bounds
 * Source: Marquardt 1963; Huber 1964 for the weights.
 */
export const leastSquaresByMarquardt = (problem: LeastSquaresProblem): LeastSquaresSolution => atOneGo(leastSquaresInSteps(problem));

/** The same with a rest after each turn. */
export function* leastSquaresInSteps(problem: LeastSquaresProblem): Generator<undefined, LeastSquaresSolution> {
  const { low, high } = problem;
  if (problem.start.some((value, i) => !(value >= low[i] && value <= high[i])))
    throw new RangeError(`leastSquaresByMarquardt: start ${problem.start.join(", ")} outside ${low.join(", ")} to ${high.join(", ")}`);
  let here = evaluate(problem, problem.start);
  let damping = 1e-3;
  let converged = false;
  for (let turn = 0; turn < (problem.iterations ?? 60) && !converged; turn++) {
    yield;
    const { curvature, gradient } = normalEquations(problem, here);
    let accepted = false;
    while (!accepted && damping < 1e12) {
      const move = choleskySolve(damped(curvature, damping), gradient);
      const next =
        move === null
          ? null
          : evaluate(
              problem,
              clipped(
                problem,
                here.parameters.map((value, i) => value - move[i]),
              ),
            );
      if (next !== null && next.cost <= here.cost) {
        converged = here.cost - next.cost <= 1e-12 * (here.cost + 1e-300) || small(problem, here.parameters, next.parameters);
        here = next;
        damping = Math.max(1e-12, damping / 10);
        accepted = true;
      } else damping *= 10;
    }
    if (!accepted) converged = true;
  }
  const { curvature } = normalEquations(problem, here);
  return { parameters: here.parameters, covariance: inverse(curvature), cost: here.cost, converged };
}

type Point = {
  readonly parameters: readonly number[];
  readonly residuals: ArrayLike<number>;
  readonly weights: Float64Array;
  readonly cost: number;
};

function evaluate(problem: LeastSquaresProblem, parameters: readonly number[]): Point {
  const residuals = problem.residuals(parameters);
  const reach = problem.huber ?? Number.POSITIVE_INFINITY;
  const weights = new Float64Array(residuals.length);
  let cost = 0;
  for (let i = 0; i < residuals.length; i++) {
    const size = Math.abs(residuals[i]);
    weights[i] = size <= reach ? 1 : reach / size;
    cost += size <= reach ? size * size : reach * (2 * size - reach);
  }
  return { parameters, residuals, weights, cost: Number.isNaN(cost) ? Number.POSITIVE_INFINITY : cost };
}

function normalEquations(problem: LeastSquaresProblem, point: Point) {
  const p = point.parameters.length;
  const slopes = point.parameters.map((value, j) => {
    const size = problem.steps?.[j] ?? 1e-6 * Math.max(Math.abs(value), 1e-6 * (problem.high[j] - problem.low[j] || 1));
    const step = value + size > problem.high[j] ? -size : size;
    const moved = problem.residuals(point.parameters.map((other, i) => (i === j ? other + step : other)));
    return Float64Array.from(point.residuals, (residual, i) => (moved[i] - residual) / step);
  });
  const curvature = Array.from({ length: p }, (_, i) => Array.from({ length: p }, (_, j) => dot(slopes[i], slopes[j], point.weights)));
  return { curvature, gradient: slopes.map((slope) => dot(slope, point.residuals, point.weights)) };
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>, weights: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += a[i] * b[i] * weights[i];
  return sum;
}

/** A parameter without any slope stands still (its gradient is 0 too), so that the rest can move. */
function damped(curvature: number[][], damping: number): number[][] {
  const most = Math.max(...curvature.map((row, i) => row[i]));
  return curvature.map((row, i) => row.map((value, j) => (i === j ? (value === 0 ? most : value * (1 + damping)) : value)));
}
const clipped = ({ low, high }: LeastSquaresProblem, parameters: readonly number[]) =>
  parameters.map((value, i) => Math.min(high[i], Math.max(low[i], value)));
const small = ({ low, high }: LeastSquaresProblem, before: readonly number[], after: readonly number[]) =>
  before.every((value, i) => Math.abs(after[i] - value) <= 1e-10 * (Math.abs(value) + Math.min(1, 1e-6 * (high[i] - low[i]))));

/** Inverse of a small symmetric positive matrix, or null. */
export function inverse(matrix: readonly (readonly number[])[]): number[][] | null {
  const columns = matrix.map((_, j) =>
    choleskySolve(
      matrix,
      matrix.map((_, i) => (i === j ? 1 : 0)),
    ),
  );
  return columns.includes(null) ? null : (columns as number[][]);
}
