import { finiteValues, NORMAL_PER_MAD, type Numbers, quantileInPlace } from "./order-statistics";

/** Variance of the noise from the median of |differences| of neighbours: steps and slow changes do not move it. */
export function noiseVariance(values: Numbers): number {
  const kept = finiteValues(values);
  const n = kept.length - 1;
  if (n < 1) return Number.NaN;
  const steps = new Float64Array(n);
  for (let i = 0; i < n; i++) steps[i] = kept[i + 1] - kept[i];
  const centre = quantileInPlace(steps.slice(), 0.5);
  for (let i = 0; i < n; i++) steps[i] = Math.abs(steps[i] - centre);
  return (NORMAL_PER_MAD * quantileInPlace(steps, 0.5)) ** 2 / 2;
}

/**
 * Where the mean of a column shifts: the exact minimum of sum of squares / noise + penalty * segments, by functional pruning, about
 * O(n log n) even where nothing ever shifts. A penalty of 2 to 3 log n (in units of the noise variance) suits a shift in the mean of
 * independent noise; raise it where the noise hangs together.
 * @param values shape [n], none missing   @param noise variance of the noise, > 0
 * @returns first index of every segment but the first, rising
 * Source: Maidstone, Hocking, Rigaill & Fearnhead, Statistics and Computing 27 (2017) 519.
 */
export function changePoints(values: Float64Array, noise: number, penalty: number): number[] {
  const n = values.length;
  if (n < 2) return [];
  if (!(noise > 0)) throw new RangeError(`changePoints: noise variance ${noise}`);
  const beta = penalty * noise;
  const origin = new Int32Array(n);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    low = Math.min(low, values[i]);
    high = Math.max(high, values[i]);
  }
  let pieces = piecesOf(64);
  let next = piecesOf(64);
  append(pieces, low, high, 0, 0, 0, 0);
  for (let t = 0; t < n; t++) {
    const best = addSquare(pieces, values[t]);
    origin[t] = pieces.origin[best];
    if (next.low.length < 2 * pieces.count + 4) next = piecesOf(4 * pieces.count + 8);
    lowerOf(pieces, pieces.least + beta, t + 1, next);
    const done = pieces;
    pieces = next;
    next = done;
  }
  const found: number[] = [];
  for (let t = n - 1; origin[t] > 0; t = origin[t] - 1) found.push(origin[t]);
  return found.reverse();
}

/**
 * Costs of running segments as functions of their mean m: on [low, high] it is a m^2 + b m + c for the segment that began at `origin`.
 * Columns instead of objects, because they change with every sample.
 */
type Pieces = {
  count: number;
  /** Least cost of all, as `addSquare` left it. */
  least: number;
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly c: Float64Array;
  readonly origin: Int32Array;
};

function piecesOf(room: number): Pieces {
  const column = () => new Float64Array(room);
  return { count: 0, least: 0, low: column(), high: column(), a: column(), b: column(), c: column(), origin: new Int32Array(room) };
}

function append(pieces: Pieces, low: number, high: number, a: number, b: number, c: number, origin: number): void {
  const i = pieces.count++;
  pieces.low[i] = low;
  pieces.high[i] = high;
  pieces.a[i] = a;
  pieces.b[i] = b;
  pieces.c[i] = c;
  pieces.origin[i] = origin;
}

/** Adds (v - m)^2 to all pieces and notes the least cost. @returns the piece that has it */
function addSquare(pieces: Pieces, v: number): number {
  const { count, low, high, a, b, c } = pieces;
  let cost = Number.POSITIVE_INFINITY;
  let piece = 0;
  for (let i = 0; i < count; i++) {
    a[i] += 1;
    b[i] -= 2 * v;
    c[i] += v * v;
    const m = Math.min(high[i], Math.max(low[i], -b[i] / (2 * a[i])));
    const least = (a[i] * m + b[i]) * m + c[i];
    if (least < cost) {
      cost = least;
      piece = i;
    }
  }
  pieces.least = cost;
  return piece;
}

/** A piece of the segment that begins anew: joined to the last one where that is such a piece too. */
function appendAnew(out: Pieces, low: number, high: number, constant: number, origin: number): void {
  const last = out.count - 1;
  if (last >= 0 && out.origin[last] === origin) out.high[last] = high;
  else append(out, low, high, 0, 0, constant, origin);
}

/** The lower of the pieces and a constant (a segment that begins anew at `origin`), written to `out`. */
function lowerOf(pieces: Pieces, constant: number, origin: number, out: Pieces): void {
  out.count = 0;
  for (let i = 0; i < pieces.count; i++) {
    const a = pieces.a[i];
    const b = pieces.b[i];
    const c = pieces.c[i];
    const middle = -b / (2 * a);
    const reach2 = (constant - c - (b * middle) / 2) / a;
    const reach = reach2 > 0 ? Math.sqrt(reach2) : -1;
    const low = Math.max(pieces.low[i], middle - reach);
    const high = Math.min(pieces.high[i], middle + reach);
    if (reach < 0 || low >= high) {
      appendAnew(out, pieces.low[i], pieces.high[i], constant, origin);
      continue;
    }
    if (low > pieces.low[i]) appendAnew(out, pieces.low[i], low, constant, origin);
    append(out, low, high, a, b, c, pieces.origin[i]);
    if (high < pieces.high[i]) appendAnew(out, high, pieces.high[i], constant, origin);
  }
}
