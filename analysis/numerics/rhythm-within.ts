/** A period in samples and how plainly it shows, -1 to 2: near 0 by chance, some tenths where part of the signal has it. */
export type Rhythm = { readonly lag: number; readonly strength: number };

const LEAST_PAIRS = 100;
/** What comes back after a time comes back after twice that time too: of periods about as plain the shortest is meant. */
const AS_PLAIN = 0.15;

/**
 * The period that comes back: where the correlation of values one and two periods apart stands highest above that of values half and one and a half apart. What
 * comes by chance has none, however slowly its correlation falls, since the falls on both sides cancel. Pairs are taken within a part only.
 * @param values shape [n], NaN where missing     @param part shape [n], the part each value belongs to     @param low,high lags to look at, samples
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
  let [sum, known] = [0, 0];
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    sum += value;
    known++;
  }
  const centred = values.map((value) => value - sum / known);
  return Float64Array.from({ length: last + 1 }, (_, lag) => {
    let [both, first, second, pairs] = [0, 0, 0, 0];
    for (let i = 0, end = centred.length - lag; i < end; i++) {
      const a = centred[i];
      const b = centred[i + lag];
      const product = a * b;
      if (product - product !== 0 || part[i] !== part[i + lag]) continue;
      both += product;
      first += a * a;
      second += b * b;
      pairs++;
    }
    return pairs < LEAST_PAIRS ? Number.NaN : both / Math.sqrt(first * second);
  });
}
