import { reusedRoom } from "./reused-room";

/** Any column of numbers. NaN means missing and is left out everywhere in this folder unless a function says otherwise. */
export type Numbers = ArrayLike<number>;

/** Scale from median absolute deviation to standard deviation of a normal: 1 / quantile(3/4). */
export const NORMAL_PER_MAD = 1.4826022185056018;

/** The values that are numbers, as a copy of their own, shape [m]; `from` inclusive, `to` exclusive. */
export function finiteValues(values: Numbers, from = 0, to = values.length): Float64Array {
  const kept = new Float64Array(Math.max(0, to - from));
  const m = copyFinite(values, from, to, kept);
  return m === kept.length ? kept : kept.subarray(0, m);
}

/** The same into a given array. @returns how many */
export function copyFinite(values: Numbers, from: number, to: number, into: Float64Array): number {
  // one loop a kind of array: a loop that meets them all is compiled for none
  if (values instanceof Float64Array) return copyDoubles(values, from, to, into);
  if (values instanceof Float32Array) return copySingles(values, from, to, into);
  let m = 0;
  for (let i = from; i < to; i++) {
    const v = values[i];
    if (v - v === 0) into[m++] = v;
  }
  return m;
}

function copyDoubles(values: Float64Array, from: number, to: number, into: Float64Array): number {
  let m = 0;
  for (let i = from; i < to; i++) {
    const v = values[i];
    if (v - v === 0) into[m++] = v;
  }
  return m;
}

function copySingles(values: Float32Array, from: number, to: number, into: Float64Array): number {
  let m = 0;
  for (let i = from; i < to; i++) {
    const v = values[i];
    if (v - v === 0) into[m++] = v;
  }
  return m;
}

const room = reusedRoom();

/** As `finiteValues`, for callers that are done with the copy before anyone copies again. */
function passingCopy(values: Numbers): Float64Array {
  const kept = room(values.length);
  return kept.subarray(0, copyFinite(values, 0, values.length, kept));
}

/** Median of the values present; NaN where there is none. O(n). */
export const median = (values: Numbers): number => quantile(values, 0.5);

/** Quantile of the values present, linear between order statistics (type 7 of Hyndman & Fan 1996, as numpy). NaN where there is none. O(n). */
export function quantile(values: Numbers, q: number): number {
  return quantileInPlace(passingCopy(values), q);
}

/** Several quantiles of the same values, copied once. Shape [k] in, [k] out. O(k n). */
export function quantiles(values: Numbers, qs: readonly number[]): number[] {
  const kept = passingCopy(values);
  return qs.map((q) => quantileInPlace(kept, q));
}

/** Quantile (type 7) of values already in rising order and without NaN. */
export function quantileOfSorted(sorted: Numbers, q: number): number {
  if (sorted.length === 0) return Number.NaN;
  const at = q * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
}

/** As `quantile`, but puts the first n of the given array into another order and expects no NaN: for callers that made a copy already. */
export function quantileInPlace(values: Float64Array, q: number, n = values.length): number {
  if (n === 0) return Number.NaN;
  const at = q * (n - 1);
  const low = Math.floor(at);
  const below = selectInPlace(values, low, 0, n - 1);
  if (at === low) return below;
  let above = Number.POSITIVE_INFINITY;
  for (let i = low + 1; i < n; i++) if (values[i] < above) above = values[i];
  return below + (at - low) * (above - below);
}

/** Median of |value - median|, raw: times NORMAL_PER_MAD it estimates a normal standard deviation. NaN where there is no value. */
export function medianAbsoluteDeviation(values: Numbers, around = median(values)): number {
  const kept = passingCopy(values);
  toDistances(kept, around);
  return quantileInPlace(kept, 0.5);
}

/** In a function of its own: a loop compiled while it runs, with a call behind it, was thrown away at each of its ends. */
function toDistances(values: Float64Array, around: number): void {
  for (let i = 0; i < values.length; i++) values[i] = Math.abs(values[i] - around);
}

/** Standard deviation that outliers do not move: median absolute deviation on the normal scale. Hampel 1974. */
export const robustSpread = (values: Numbers, around = median(values)): number => NORMAL_PER_MAD * medianAbsoluteDeviation(values, around);

/** Least and greatest of the values present; null where there is none. */
export function rangeOf(values: Numbers, from = 0, to = values.length): { readonly low: number; readonly high: number } | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = from; i < to; i++) {
    const v = values[i];
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return low <= high ? { low, high } : null;
}

/**
 * k-th smallest (0-based) by Hoare's selection, in place and O(n); no NaN. Afterwards all before index k are not above it, all after not below.
 * `first` and `last` bound the part to look in where an earlier selection has parted the array already.
 */
export function selectInPlace(a: Float64Array, k: number, first = 0, last = a.length - 1): number {
  let left = first;
  let right = last;
  while (left < right) {
    const pivot = right - left > SAMPLED ? pivotOfSample(a, k, left, right) : middleOfThree(a[left], a[(left + right) >>> 1], a[right]);
    let i = left;
    let j = right;
    while (i <= j) {
      while (a[i] < pivot) i++;
      while (a[j] > pivot) j--;
      if (i <= j) {
        const swap = a[i];
        a[i++] = a[j];
        a[j--] = swap;
      }
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return a[k];
}

/** Ranges longer than this take their pivot from a sample. */
const SAMPLED = 600;

/** The k-th value of a sample around index k, which lies close to that of the whole range. Source: Floyd & Rivest, Communications of the ACM 18 (1975) 165. */
function pivotOfSample(a: Float64Array, k: number, left: number, right: number): number {
  const n = right - left + 1;
  const m = k - left + 1;
  const z = Math.log(n);
  const size = 0.5 * Math.exp((2 * z) / 3);
  const spread = 0.5 * Math.sqrt((z * size * (n - size)) / n) * Math.sign(m - n / 2);
  const from = Math.max(left, Math.floor(k - (m * size) / n + spread));
  const to = Math.min(right, Math.floor(k + ((n - m) * size) / n + spread));
  return selectInPlace(a, k, from, to);
}

const middleOfThree = (a: number, b: number, c: number): number => Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
