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
  for (const v of values) {
    low = Math.min(low, v);
    high = Math.max(high, v);
  }
  let pieces: Piece[] = [{ low, high, a: 0, b: 0, c: 0, from: 0 }];
  for (let t = 0; t < n; t++) {
    let best = Number.POSITIVE_INFINITY;
    for (const piece of pieces) {
      addSquare(piece, values[t]);
      const least = leastOf(piece);
      if (least < best) {
        best = least;
        origin[t] = piece.from;
      }
    }
    pieces = lowerOf(pieces, best + beta, t + 1);
  }
  const found: number[] = [];
  for (let t = n - 1; origin[t] > 0; t = origin[t] - 1) found.push(origin[t]);
  return found.reverse();
}

/** Cost of a running segment as a function of its mean on [low, high]: a m^2 + b m + c; it began at `from`. */
type Piece = { low: number; high: number; a: number; b: number; c: number; from: number };

function addSquare(piece: Piece, v: number): void {
  piece.a += 1;
  piece.b -= 2 * v;
  piece.c += v * v;
}

function leastOf(piece: Piece): number {
  const m = Math.min(piece.high, Math.max(piece.low, piece.a > 0 ? -piece.b / (2 * piece.a) : piece.low));
  return piece.a * m * m + piece.b * m + piece.c;
}

/** The lower of the pieces and a constant (a segment that begins anew at `from`). */
function lowerOf(pieces: readonly Piece[], constant: number, from: number): Piece[] {
  const kept: Piece[] = [];
  const push = (piece: Piece): void => {
    const last = kept[kept.length - 1];
    if (piece.from === from && last !== undefined && last.from === from) last.high = piece.high;
    else kept.push(piece);
  };
  const anew = (low: number, high: number): Piece => ({ low, high, a: 0, b: 0, c: constant, from });
  for (const piece of pieces) {
    const middle = -piece.b / (2 * piece.a);
    const reach2 = (constant - piece.c + piece.a * middle * middle) / piece.a;
    const reach = reach2 > 0 ? Math.sqrt(reach2) : -1;
    const low = Math.max(piece.low, middle - reach);
    const high = Math.min(piece.high, middle + reach);
    if (reach < 0 || low >= high) {
      push(anew(piece.low, piece.high));
      continue;
    }
    if (low > piece.low) push(anew(piece.low, low));
    push(low === piece.low && high === piece.high ? piece : { ...piece, low, high });
    if (high < piece.high) push(anew(high, piece.high));
  }
  return kept;
}
