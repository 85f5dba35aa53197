import { columnExtent } from "./column-extent";
import { distinctValues } from "./distinct-values";

/** Two heaps of values with an empty stretch between them. */
export type TwoLevels = {
  /** Medians of the values under and over the empty stretch. */
  readonly low: number;
  readonly high: number;
  /** Standard deviation of either heap by its own quartiles. */
  readonly lowSpread: number;
  readonly highSpread: number;
  /** Edges of the empty stretch. */
  readonly lowEdge: number;
  readonly highEdge: number;
  /** Share of the values in the upper heap, 0 to 1. */
  readonly share: number;
  /** Distance of the levels over their joint spread. */
  readonly separation: number;
};

const MOST_BINS = 256;
/** A stretch is empty where it holds less than this part of what the lower of the peaks on its two sides holds. */
const EMPTY = 0.25;
/** Bins that hold this part of the range from emptiest to fullest of a stretch are still as empty as its emptiest. */
const NEARLY = 0.2;
const PER_NORMAL_QUARTILE = 1.349; // interquartile range of a normal distribution of unit spread

/**
 * Every way to part values into two heaps by an empty stretch of their histogram, from the lowest stretch to the highest.
 * Works on the shape alone, so it holds for a rest level with a broad heap over it and for rare values on either side.
 * @param values shape [n]; NaN is left out  @returns empty where the values make one heap. O(n)
 */
export function levelsOf(values: ArrayLike<number>): TwoLevels[] {
  const { low, high, missing } = columnExtent(values);
  if (!(high > low)) return [];
  const bins = histogram(values, { low, high, count: values.length - missing });
  return emptyStretches(bins.counts).map(([first, last]) => describe(bins, first, last));
}

type Bins = {
  readonly counts: Float64Array;
  readonly sums: Float64Array;
  readonly from: number;
  readonly width: number;
  readonly total: number;
};

/** As many bins as the count of values bears (square-root rule), none narrower than the step of a coarse channel. */
function histogram(values: ArrayLike<number>, range: { low: number; high: number; count: number }): Bins {
  const span = range.high - range.low;
  const wanted = Math.min(MOST_BINS, Math.max(12, Math.round(Math.sqrt(range.count) * 2)));
  const width = Math.max(span / wanted, coarseStep(values, span));
  const counts = new Float64Array(Math.floor(span / width + 1e-6) + 1);
  const sums = new Float64Array(counts.length);
  for (let i = 0; i < values.length; i++) {
    const bin = Math.floor((values[i] - range.low) / width + 1e-6);
    if (!(bin >= 0)) continue;
    counts[bin]++;
    sums[bin] += values[i];
  }
  return { counts, sums, from: range.low, width, total: range.count };
}

/** Smallest step between the different values of a channel that has few of them; 0 where it has many. */
function coarseStep(values: ArrayLike<number>, span: number): number {
  const sorted = distinctValues(values, 64);
  if (sorted === null) return 0;
  let step = span;
  for (let i = 1; i < sorted.length; i++) {
    const rise = sorted[i] - sorted[i - 1];
    if (rise > span * 1e-4 && rise < step) step = rise;
  }
  return step === span ? 0 : step;
}

function emptyStretches(counts: Float64Array): [number, number][] {
  const smooth = smoothed(counts);
  const n = smooth.length;
  const right = new Float64Array(n);
  for (let i = n - 1, peak = 0; i >= 0; i--) {
    peak = Math.max(peak, smooth[i]);
    right[i] = peak;
  }
  const stretches: [number, number][] = [];
  for (let i = 0, left = 0, start = -1, foot = 0; i < n; i++) {
    left = Math.max(left, smooth[i]);
    const empty = smooth[i] < EMPTY * Math.min(left, right[i]);
    if (empty && start < 0) start = i;
    if (empty) foot = EMPTY * NEARLY * Math.min(left, right[i]);
    if (!empty && start >= 0) {
      stretches.push(emptiest(smooth, start, i - 1, foot));
      start = -1;
    }
  }
  return stretches;
}

/** The widest part of a thin stretch that is about as empty as its emptiest bin, or under `foot`: a heap with a broad foot keeps its foot. */
function emptiest(smooth: Float64Array, first: number, last: number, foot: number): [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let i = first; i <= last; i++) {
    least = Math.min(least, smooth[i]);
    most = Math.max(most, smooth[i]);
  }
  const limit = Math.max(foot, least + NEARLY * (most - least));
  let best: [number, number] = [first, last];
  for (let i = first, start = -1, width = 0; i <= last + 1; i++) {
    const inside = i <= last && smooth[i] <= limit;
    if (inside && start < 0) start = i;
    if (!inside && start >= 0) {
      if (i - start > width) best = [start, i - 1];
      width = Math.max(width, i - start);
      start = -1;
    }
  }
  return best;
}

/** Mean over three bins, which keeps chance holes of a thin heap from passing as empty; few bins stay as they are. */
function smoothed(counts: Float64Array): Float64Array {
  if (counts.length < 24) return counts;
  return counts.map((count, i) => (count + (counts[i - 1] ?? 0) + (counts[i + 1] ?? 0)) / 3);
}

function describe(bins: Bins, first: number, last: number): TwoLevels {
  const middle = (first + last + 1) >> 1;
  const below = quartiles(bins, 0, middle);
  const above = quartiles(bins, middle, bins.counts.length);
  const joint = Math.hypot(below.spread, above.spread, bins.width / Math.sqrt(12));
  return {
    low: below.median,
    high: above.median,
    lowSpread: below.spread,
    highSpread: above.spread,
    lowEdge: bins.from + first * bins.width,
    highEdge: bins.from + (last + 1) * bins.width,
    share: above.count / bins.total,
    separation: (above.median - below.median) / joint,
  };
}

function quartiles(bins: Bins, from: number, to: number): { median: number; spread: number; count: number } {
  let count = 0;
  for (let i = from; i < to; i++) count += bins.counts[i];
  const at = (share: number) => {
    let seen = 0;
    for (let i = from; i < to; i++) {
      if (seen + bins.counts[i] >= share * count && bins.counts[i] > 0) return bins.sums[i] / bins.counts[i];
      seen += bins.counts[i];
    }
    return bins.from + bins.width * to;
  };
  return { median: at(0.5), spread: (at(0.75) - at(0.25)) / PER_NORMAL_QUARTILE, count };
}
