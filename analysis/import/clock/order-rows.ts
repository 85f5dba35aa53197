/** Rows in order of time. */
export type OrderedRows = {
  /** Strictly rising instants, s, shape [kept]. */
  readonly times: Float64Array;
  /** Row of each, shape [kept]; null where all rows are kept as they stand. */
  readonly order: Uint32Array | null;
  /** Rows whose instant an earlier row already had: the first is kept. */
  readonly duplicates: number;
  /** Rows that stood after a later one. */
  readonly reordered: number;
};

/**
 * Sorts rows by instant, equal ones in file order, and keeps the first of equal instants. O(n) where they rise already, else O(n log n).
 * @param times s, shape [n]; NaN rows are left out
 */
export function orderRows(times: Float64Array): OrderedRows {
  let [late, equal, unknown] = [0, 0, 0];
  let last = Number.NEGATIVE_INFINITY;
  for (const t of times) {
    if (Number.isNaN(t)) unknown++;
    else if (t > last) last = t;
    else if (t === last) equal++;
    else late++;
  }
  if (late + equal + unknown === 0) return { times, order: null, duplicates: 0, reordered: 0 };
  return late === 0 ? keepFirst(times, null, 0) : keepFirst(times, sortedRows(times), late);
}

function keepFirst(times: Float64Array, sorted: Uint32Array | null, reordered: number): OrderedRows {
  const n = sorted?.length ?? times.length;
  const order = new Uint32Array(n);
  const kept = new Float64Array(n);
  let [count, duplicates] = [0, 0];
  for (let i = 0; i < n; i++) {
    const row = sorted === null ? i : sorted[i];
    const t = times[row];
    if (Number.isNaN(t)) continue;
    if (count > 0 && t === kept[count - 1]) duplicates++;
    else {
      kept[count] = t;
      order[count++] = row;
    }
  }
  return { times: kept.slice(0, count), order: order.slice(0, count), duplicates, reordered };
}

/** Row numbers in order of instant, ties in file order: merge of the rising runs, which are few in a log. */
function sortedRows(times: Float64Array): Uint32Array {
  const rows = new Uint32Array(times.length);
  let count = 0;
  for (let i = 0; i < times.length; i++) if (!Number.isNaN(times[i])) rows[count++] = i;
  let from = rows.slice(0, count);
  let bounds = runBounds(times, from);
  let to = new Uint32Array(count);
  while (bounds.length > 2) {
    const merged = [0];
    for (let k = 0; k + 1 < bounds.length; k += 2) {
      mergeRuns(times, from, to, bounds[k], bounds[k + 1], bounds[k + 2] ?? bounds[k + 1]);
      merged.push(bounds[k + 2] ?? bounds[k + 1]);
    }
    [from, to] = [to, from];
    bounds = merged;
  }
  return from;
}

function runBounds(times: Float64Array, rows: Uint32Array): number[] {
  const bounds = [0];
  for (let i = 1; i < rows.length; i++) if (times[rows[i]] < times[rows[i - 1]]) bounds.push(i);
  bounds.push(rows.length);
  return bounds;
}

function mergeRuns(times: Float64Array, from: Uint32Array, to: Uint32Array, start: number, middle: number, end: number): void {
  let [a, b] = [start, middle];
  for (let i = start; i < end; i++) {
    if (a < middle && (b >= end || times[from[a]] <= times[from[b]])) to[i] = from[a++];
    else to[i] = from[b++];
  }
}
