import { choleskySolve } from "../../numerics/small-system";
import type { Stack } from "./stacked-waves";

/** The highest point of a stack of crests (the lowest of troughs), as the curve through it shows it. Values in the stack's unit, places in waves. */
export type Top = {
  readonly value: number;
  /** What another curve that fits as well would say. */
  readonly low: number;
  readonly high: number;
  /** The window it was read in and the corner in it; null where the top is round. */
  readonly half: number;
  readonly corner: number | null;
  /** What a mean over one sample's share of a wave takes off: linear and quadratic in that share. */
  readonly slopes: number;
  readonly bend: number;
  /** Standard deviation of a sample around the curve. */
  readonly noise: number;
};

/** Windows tried, half their width in waves, widest first: each about 0.7 times the one before. */
const HALVES = [1 / 8, 1 / 11, 1 / 16, 1 / 23, 1 / 32, 1 / 45, 1 / 64, 1 / 90, 1 / 128];
const LEAST_SAMPLES = 14;
/** Places tried for a corner, over this part of the window. */
const CORNERS = 9;
const INNER = 0.6;
/** A corner is believed where it takes off this many variances of the noise for each of its two numbers (chance 1 in 600 over all places); from one on it is not ruled out. */
const PLAIN_CORNER = 9;
const POSSIBLE_CORNER = 1;
/** Standard deviations (chance one in twenty) by which neighbouring residuals may agree more than noise does. */
const BY_CHANCE = 1.64;
/** Noise over the stack's height from which on a corner may hide in it. */
const HIDES_A_CORNER = 0.02;
/** A misfit under this part of the stack's height is let pass. */
export const LET_PASS = 0.01;

/** A window of a stack, crests upward, its first sample the stack's `first`. */
type Points = Pick<Stack, "places" | "values"> & { readonly first: number };
type Curve = {
  readonly top: number;
  readonly corner: number | null;
  readonly slopes: number;
  readonly bend: number;
  readonly squares: number;
  readonly coefficients: readonly number[];
};

/**
 * Top by least squares in the widest window in which a parabola, or two flanks that meet in a corner and bend alike, leaves no more than noise.
 * Sines and triangles are met exactly; narrow dips by narrower windows. The next narrower window and a corner that noise may hide give its bounds.
 * @param sign 1 for crests, -1 for troughs   @returns null with too few samples
 */
export function topOf(stack: Stack, sign: 1 | -1): Top | null {
  let chosen: Top | null = null;
  let follows = false;
  const range = rangeOf(stack.values);
  for (const half of HALVES) {
    const points = within(stack, half, sign);
    const n = points.places.length;
    const round = n < LEAST_SAMPLES ? null : parabola(points);
    if (round === null) break;
    // Where a parabola follows through little noise no corner can hide.
    const roundFollows = followsWithin(points, round, LET_PASS * range);
    const sharp = roundFollows && round.squares / n < (HIDES_A_CORNER * range) ** 2 ? null : bestCorner(points, half);
    const gain = sharp === null || !(sharp.slopes > 0) ? 0 : ((round.squares - sharp.squares) / 2) * ((n - 5) / sharp.squares);
    const curve = sharp !== null && gain > PLAIN_CORNER ? sharp : round;
    if (follows && chosen !== null) return widened(chosen, sign * curve.top);
    chosen = describe(curve, half, n, sign);
    if (sharp !== null && gain > POSSIBLE_CORNER) chosen = widened(chosen, sign * sharp.top);
    follows = curve === round ? roundFollows : followsWithin(points, curve, LET_PASS * range);
  }
  return chosen;
}

/**
 * The tops of a stack less one group of its waves each, found as that of the whole was: the sums of all less those of the group. Shape [groups], null where too little is left.
 * @param groups of each sample, 0 .. groupCount - 1
 */
export function topsWithout(stack: Stack, sign: 1 | -1, like: Top, groups: ArrayLike<number>, groupCount: number): (number | null)[] {
  const points = within(stack, like.half, sign);
  const count = columnsOf(like.corner);
  const all = new NormalSums(count);
  const each = Array.from({ length: groupCount }, () => new NormalSums(count));
  const row = new Float64Array(count);
  for (let i = 0; i < points.places.length; i++) {
    fillRow(row, points.places[i], like.corner);
    all.add(row, points.values[i]);
    each[groups[points.first + i]].add(row, points.values[i]);
  }
  return each.map((group) => {
    if (all.samples - group.samples < LEAST_SAMPLES / 2) return null;
    const coefficients = all.solveWithout(group);
    return coefficients === null ? null : sign * (like.corner === null ? summit(coefficients, points).top : coefficients[0]);
  });
}

const describe = ({ top, corner, slopes, bend, squares }: Curve, half: number, n: number, sign: 1 | -1): Top => ({
  value: sign * top,
  low: sign * top,
  high: sign * top,
  half,
  corner,
  slopes,
  bend: Math.max(0, bend),
  noise: Math.sqrt(squares / n),
});

const widened = (top: Top, other: number): Top => ({ ...top, low: Math.min(top.low, other), high: Math.max(top.high, other) });

function rangeOf(values: Float64Array): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return high - low;
}

/** The samples at most `half` from the middle, crests upward; places must rise. */
function within({ places, values }: Stack, half: number, sign: 1 | -1): Points {
  let first = 0;
  while (first < places.length && places[first] < -half) first++;
  let end = first;
  while (end < places.length && places[end] <= half) end++;
  return { first, places: places.subarray(first, end), values: values.subarray(first, end).map((v) => sign * v) };
}

function parabola(points: Points): Curve | null {
  const fitted = leastSquares(points, null);
  if (fitted === null) return null;
  const { top, bend } = summit(fitted.coefficients, points);
  return { ...fitted, top, corner: null, slopes: 0, bend };
}

/** Highest point of a parabola within its points. */
function summit([v, slope, curved]: readonly number[], { places }: Points): { readonly top: number; readonly bend: number } {
  const at = curved < 0 ? Math.max(places[0], Math.min(places[places.length - 1], -slope / (2 * curved))) : 0;
  return { top: v + slope * at + curved * at * at, bend: -curved };
}

function bestCorner(points: Points, half: number): Curve | null {
  let best: Curve | null = null;
  for (let k = 0; k < CORNERS; k++) {
    const corner = half * INNER * ((2 * k) / (CORNERS - 1) - 1);
    const fitted = leastSquares(points, corner);
    if (fitted === null || (best !== null && fitted.squares >= best.squares)) continue;
    const [top, left, right, curved] = fitted.coefficients;
    best = { ...fitted, top, corner, slopes: left <= 0 && right <= 0 ? -(left + right) : 0, bend: -curved };
  }
  return best;
}

/** Columns of least squares at a place: 1, u, u^2, or with a corner 1, the two flanks from it, and the square from it. One function, since one closure a corner is slow. */
function fillRow(row: Float64Array, u: number, corner: number | null): void {
  row[0] = 1;
  if (corner === null) {
    row[1] = u;
    row[2] = u * u;
  } else {
    const d = u - corner;
    row[1] = Math.max(-d, 0);
    row[2] = Math.max(d, 0);
    row[3] = d * d;
  }
}

const columnsOf = (corner: number | null): number => (corner === null ? 3 : 4);

function leastSquares({ places, values }: Points, corner: number | null) {
  const sums = new NormalSums(columnsOf(corner));
  const row = new Float64Array(columnsOf(corner));
  for (let i = 0; i < places.length; i++) {
    fillRow(row, places[i], corner);
    sums.add(row, values[i]);
  }
  const coefficients = sums.solveWithout(null);
  return coefficients === null ? null : { coefficients, squares: sums.squaresLeft(coefficients) };
}

/** Whether a curve leaves no more than noise, or less than is let pass. */
const followsWithin = (points: Points, curve: Curve, letPass: number): boolean => {
  const n = points.places.length;
  return curve.squares / n < letPass ** 2 || alikeness(points, curve) > 2 - (2 * BY_CHANCE) / Math.sqrt(n);
};

/** Mean square of successive differences of the residuals over their own (von Neumann 1941): 2 for noise, less where the curve does not follow. */
function alikeness({ places, values }: Points, { corner, coefficients }: Curve): number {
  const count = columnsOf(corner);
  const row = new Float64Array(count);
  let squares = 0;
  let steps = 0;
  let before = Number.NaN;
  for (let i = 0; i < places.length; i++) {
    fillRow(row, places[i], corner);
    let rest = values[i];
    for (let j = 0; j < count; j++) rest -= coefficients[j] * row[j];
    squares += rest * rest;
    const step = rest - before;
    if (step - step === 0) steps += step * step;
    before = rest;
  }
  return steps / squares;
}

/** Sums of the normal equations. */
class NormalSums {
  samples = 0;
  private squares = 0;
  private readonly products: Float64Array;
  private readonly sides: Float64Array;

  constructor(private readonly count: number) {
    this.products = new Float64Array(count * count);
    this.sides = new Float64Array(count);
  }

  add(row: Float64Array, value: number): void {
    this.samples++;
    this.squares += value * value;
    for (let j = 0; j < this.count; j++) {
      this.sides[j] += row[j] * value;
      for (let k = 0; k <= j; k++) this.products[j * this.count + k] += row[j] * row[k];
    }
  }

  /** Sum of the squared residuals: that of the values less what the fit explains. */
  squaresLeft(coefficients: readonly number[]): number {
    return Math.max(
      0,
      coefficients.reduce((left, c, j) => left - c * this.sides[j], this.squares),
    );
  }

  solveWithout(part: NormalSums | null): number[] | null {
    const at = (j: number, k: number) => this.products[j * this.count + k] - (part?.products[j * this.count + k] ?? 0);
    const every = Array.from({ length: this.count }, (_, j) => j);
    return choleskySolve(
      every.map((j) => every.map((k) => at(Math.max(j, k), Math.min(j, k)))),
      every.map((j) => this.sides[j] - (part?.sides[j] ?? 0)),
    );
  }
}
