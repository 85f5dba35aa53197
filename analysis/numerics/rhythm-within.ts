/** A period in samples and how plainly it shows, -1 to 2: near 0 by chance, some tenths where part of the signal has it. */
export type Rhythm = { readonly lag: number; readonly strength: number };

const LEAST_PAIRS = 100;
/** What comes back after a time comes back after twice that time too: of periods about as plain the shortest is meant. */
const AS_PLAIN = 0.15;

/**
 * The period that comes back: where the correlation of values one and two periods apart stands highest above that of values half and one and a half apart. What
 * comes by chance has none, however slowly its correlation falls, since the falls on both sides cancel. Pairs are taken within a part only.
 * @param values shape [n], NaN where missing     @param part shape [n], the part each value belongs to, part after part     @param low,high lags to look at, samples
 * @returns null with fewer than so many pairs, or where no lag is a peak with a peak at twice it. O(n high)
 */
export function rhythmWithin(values: Float64Array, part: Int32Array, low: number, high: number): Rhythm | null {
  const last = Math.min(2 * high, values.length >> 1);
  const r = correlations(values, part, last);
  const at = (lag: number) => r[Math.round(lag)];
  const peaks: Rhythm[] = [];
  for (let lag = Math.max(2, low); lag <= high && 2 * lag <= last; lag++) {
    if (!(r[lag] >= r[lag - 1] && r[lag] >= r[lag + 1])) continue;
    const twice = Math.max(...[-2, -1, 0, 1, 2].map((k) => r[2 * lag + k] ?? Number.NEGATIVE_INFINITY));
    const strength = (r[lag] + twice - at(lag / 2) - at(1.5 * lag)) / 2;
    if (!Number.isNaN(strength)) peaks.push({ lag, strength });
  }
  const most = peaks.reduce((high, { strength }) => Math.max(high, strength), Number.NEGATIVE_INFINITY);
  const shortest = peaks.find(({ strength }) => strength >= most - AS_PLAIN * Math.abs(most));
  return shortest === undefined ? null : { lag: shortest.lag, strength: most };
}

/** Correlation of values `lag` apart in one part, less the mean of all; NaN with too few. Shape [last + 1]. */
function correlations(values: Float64Array, part: Int32Array, last: number): Float64Array {
  const centred = withoutMean(values);
  const [both, first, second, pairs] = [0, 1, 2, 3].map(() => new Float64Array(last + 1));
  for (const stretch of stretchesOf(centred, part)) {
    const squares = runningSquares(stretch);
    const { length } = stretch.values;
    for (let lag = 0; lag <= last && lag < length; lag++) {
      const without = holesAt(stretch, lag);
      both[lag] += productsAt(stretch.values, lag);
      first[lag] += squares[length - lag] - without.first;
      second[lag] += squares[length] - squares[lag] - without.second;
      pairs[lag] += length - lag - without.pairs;
    }
  }
  return both.map((sum, lag) => (pairs[lag] < LEAST_PAIRS ? Number.NaN : sum / Math.sqrt(first[lag] * second[lag])));
}

function withoutMean(values: Float64Array): Float64Array {
  let [sum, known] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    sum += values[i];
    known++;
  }
  const mean = sum / known;
  return values.map((value) => value - mean);
}

/** The values of one part from its first to its last, 0 in its holes, where one is missing. */
type Stretch = { readonly values: Float64Array; readonly holes: readonly number[]; readonly known: Uint8Array };

function stretchesOf(values: Float64Array, part: Int32Array): Stretch[] {
  const stretches: Stretch[] = [];
  for (let i = 0; i < values.length; ) {
    if (Number.isNaN(values[i])) {
      i++;
      continue;
    }
    const from = i;
    let end = i;
    for (; i < values.length && (Number.isNaN(values[i]) || part[i] === part[from]); i++) if (!Number.isNaN(values[i])) end = i + 1;
    stretches.push(filled(values.slice(from, end)));
  }
  return stretches;
}

function filled(values: Float64Array): Stretch {
  const holes: number[] = [];
  const known = new Uint8Array(values.length).fill(1);
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i])) continue;
    values[i] = 0;
    known[i] = 0;
    holes.push(i);
  }
  return { values, holes, known };
}

/** Values multiplied by one call: enough to be quick, and few enough that the engine compiles the sum for the calls that follow. */
const PIECE = 4096;

function productsAt(values: Float64Array, lag: number): number {
  const end = values.length - lag;
  let sum = 0;
  for (let first = 0; first < end; first += PIECE) sum += productsWithin(values, lag, first, Math.min(end, first + PIECE));
  return sum;
}

/** Two sums that do not wait for each other. */
function productsWithin(values: Float64Array, lag: number, first: number, end: number): number {
  let even = 0;
  let odd = 0;
  let i = first;
  for (; i + 1 < end; i += 2) {
    even += values[i] * values[i + lag];
    odd += values[i + 1] * values[i + 1 + lag];
  }
  return i < end ? even + odd + values[i] * values[i + lag] : even + odd;
}

/** Sums of the squares before each place, shape [n] -> [n + 1]: what all pairs of a lag have in common is a difference of two. */
function runningSquares({ values }: Stretch): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i] + values[i] * values[i];
  return sums;
}

/** What the pairs that a hole belongs to would add: squares of the earlier and of the later values, and how many they are. */
function holesAt(
  { values, holes, known }: Stretch,
  lag: number,
): { readonly first: number; readonly second: number; readonly pairs: number } {
  let [first, second, pairs] = [0, 0, 0];
  for (const hole of holes) {
    if (hole >= lag) {
      first += values[hole - lag] ** 2;
      pairs++;
    }
    if (hole + lag >= values.length) continue;
    second += values[hole + lag] ** 2;
    pairs += known[hole + lag]; // two holes are one pair, counted at the later one
  }
  return { first, second, pairs };
}
