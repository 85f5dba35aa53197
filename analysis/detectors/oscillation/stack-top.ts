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
const CORNERS = 13;
const INNER = 0.6;
/** A corner is believed where it takes off this many variances of the noise for each of its two numbers (chance 1 in 600 over all places); from one on it is not ruled out. */
const PLAIN_CORNER = 9;
const POSSIBLE_CORNER = 1;
/** Standard deviations (chance one in twenty) by which neighbouring residuals may agree more than noise does. */
const BY_CHANCE = 1.64;
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
  /** Mean square of successive differences of the residuals over their own (von Neumann 1941): 2 for noise, less where the curve does not follow. */
  readonly alike: number;
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
    const sharp = bestCorner(points, half);
    const gain = sharp === null || !(sharp.slopes > 0) ? 0 : ((round.squares - sharp.squares) / 2) * ((n - 5) / sharp.squares);
    const curve = sharp !== null && gain > PLAIN_CORNER ? sharp : round;
    if (follows && chosen !== null) return widened(chosen, sign * curve.top);
    chosen = describe(curve, half, n, sign);
    if (sharp !== null && gain > POSSIBLE_CORNER) chosen = widened(chosen, sign * sharp.top);
    follows = curve.alike > 2 - (2 * BY_CHANCE) / Math.sqrt(n) || curve.squares / n < (LET_PASS * range) ** 2;
  }
  return chosen;
}

/**
 * The tops of a stack less one group of its waves each, found as that of the whole was: the sums of all less those of the group. Shape [groups], null where too little is left.
 * @param groups of each sample, 0 .. count - 1
 */
export function topsWithout(stack: Stack, sign: 1 | -1, like: Top, groups: ArrayLike<number>, count: number): (number | null)[] {
  const points = within(stack, like.half, sign);
  const columns = like.corner === null ? ROUND : cornered(like.corner);
  const all = new NormalSums(columns.count);
  const each = Array.from({ length: count }, () => new NormalSums(columns.count));
  const row = new Float64Array(columns.count).fill(1);
  for (let i = 0; i < points.places.length; i++) {
    columns.at(points.places[i], row);
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
  const fitted = leastSquares(points, ROUND);
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
    const fitted = leastSquares(points, cornered(corner));
    if (fitted === null || (best !== null && fitted.squares >= best.squares)) continue;
    const [top, left, right, curved] = fitted.coefficients;
    best = { ...fitted, top, corner, slopes: left <= 0 && right <= 0 ? -(left + right) : 0, bend: -curved };
  }
  return best;
}

/** Columns of a curve that is linear in its coefficients; the first is 1 throughout. */
type Columns = { readonly count: number; readonly at: (place: number, row: Float64Array) => void };

const ROUND: Columns = {
  count: 3,
  at: (u, row) => {
    row[1] = u;
    row[2] = u * u;
  },
};

const cornered = (corner: number): Columns => ({
  count: 4,
  at: (u, row) => {
    row[1] = Math.max(0, corner - u);
    row[2] = Math.max(0, u - corner);
    row[3] = (u - corner) ** 2;
  },
});

function leastSquares({ places, values }: Points, { count, at }: Columns) {
  const row = new Float64Array(count).fill(1);
  const sums = new NormalSums(count);
  for (let i = 0; i < places.length; i++) {
    at(places[i], row);
    sums.add(row, values[i]);
  }
  const coefficients = sums.solveWithout(null);
  if (coefficients === null) return null;
  let squares = 0;
  let steps = 0;
  let before = Number.NaN;
  for (let i = 0; i < places.length; i++) {
    at(places[i], row);
    let rest = values[i];
    for (let j = 0; j < count; j++) rest -= coefficients[j] * row[j];
    squares += rest * rest;
    const step = rest - before;
    if (step - step === 0) steps += step * step;
    before = rest;
  }
  return { coefficients, squares, alike: steps / squares };
}

/** Sums of the normal equations. */
class NormalSums {
  samples = 0;
  private readonly products: Float64Array;
  private readonly sides: Float64Array;

  constructor(private readonly count: number) {
    this.products = new Float64Array(count * count);
    this.sides = new Float64Array(count);
  }

  add(row: Float64Array, value: number): void {
    this.samples++;
    for (let j = 0; j < this.count; j++) {
      this.sides[j] += row[j] * value;
      for (let k = 0; k <= j; k++) this.products[j * this.count + k] += row[j] * row[k];
    }
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
