/** Usual marks of a missing value: nines, the ends of machine numbers (also with their last digits as decimals), eights and sixes. Common practice, no source. */
const MARKS = [
  -99, -999, -9999, -99999, -999999, 999, 9999, 99999, 999999, 9999999, -99.9, -99.99, -999.9, -999.99, -9999.9, 999.9, 999.99, 9999.9,
  9999.99, 99.99, 99.9, 32767, -32768, -32767, 32766, 65535, 65534, 2147483647, -2147483648, -2147483647, 4294967295, 8388607, -8388608,
  16777215, -888, -8888, 888, 8888, -777, -7777, 6999, 7999, -6999, -7999, 1e20, 1e30, -1e30, 1e31, 1e35, 1e38, 9.9e37, 9.91e37,
  3.4028235e38, -3.4028235e38, 6553.5, 655.35, 3276.7, 327.67, -3276.8, -327.68,
];

export const isUsualMark = (number: number): boolean => MARKS.includes(number);

/**
 * Numbers that stand for a missing value: a usual mark, at the very end of the values and farther from all others than three times their spread.
 * A usual mark inside or near the spread is a value.
 * @param sorted rising
 */
export function findSentinels(sorted: Float64Array): readonly number[] {
  const found: number[] = [];
  let [from, to] = [0, sorted.length - 1];
  while (to - from > 2) {
    const low = aside(sorted, from, to, 1);
    if (low !== null) {
      found.push(sorted[from]);
      from = low;
      continue;
    }
    const high = aside(sorted, from, to, -1);
    if (high === null) break;
    found.push(sorted[to]);
    to = high;
  }
  return found;
}

/** The next place inward behind all equal to the edge, where the edge is a mark that stands aside; else null. */
function aside(sorted: Float64Array, from: number, to: number, way: 1 | -1): number | null {
  const edge = sorted[way === 1 ? from : to];
  if (!MARKS.some((mark) => Math.abs(mark - edge) <= Math.abs(mark) * 1e-6)) return null;
  let [f, t] = [from, to];
  while (way === 1 && f <= t && sorted[f] === edge) f++;
  while (way === -1 && t >= f && sorted[t] === edge) t--;
  if (t - f + 1 < Math.max(2, 0.1 * sorted.length)) return null;
  // the spread of the middle nine tenths, so that another sentinel at the far end does not count into it
  const inner = sorted[Math.floor(f + (t - f) * 0.95)] - sorted[Math.ceil(f + (t - f) * 0.05)];
  const size = Math.max(Math.abs(sorted[f + ((t - f) >> 1)]), 1e-9);
  const distance = way === 1 ? sorted[f] - edge : edge - sorted[t];
  return distance > 3 * Math.max(inner, 0.3 * size) ? (way === 1 ? f : t) : null;
}

/**
 * A number that nobody uses as a mark but that stands where no reading can: the very same number twice or more, farther from all others than ten
 * times the whole range they span. A spike or a blow on the pipe is never twice the same, a clipped sensor stands at the edge of its readings.
 * @param sorted rising, sentinels left out. Null where there is none
 */
export function strangeSentinel(sorted: Float64Array): number | null {
  const last = sorted.length - 1;
  for (const way of [1, -1] as const) {
    const edge = sorted[way === 1 ? 0 : last];
    let [from, to] = [0, last];
    while (way === 1 && from <= to && sorted[from] === edge) from++;
    while (way === -1 && to >= from && sorted[to] === edge) to--;
    const equal = last + 1 - (to - from + 1);
    if (equal < 2 || to - from + 1 < Math.max(10, equal)) continue;
    const range = sorted[to] - sorted[from];
    const size = Math.max(Math.abs(sorted[from]), Math.abs(sorted[to]));
    const distance = way === 1 ? sorted[from] - edge : edge - sorted[to];
    if (range > 0 && distance > 10 * Math.max(range, 0.3 * size)) return edge;
  }
  return null;
}

/** Marks that are as often a reading: never taken unasked. */
const DOUBTFUL = new Set([...MARKS, -1]);

/**
 * A mark that stands near the values and comes up again and again while its neighbours do not: it may be either, and is asked. Null where there is none.
 * @param sorted rising, sentinels left out
 */
export function doubtfulSentinel(sorted: Float64Array): number | null {
  for (const [edge, next] of [
    [sorted[0], sorted.find((v) => v > sorted[0])],
    [sorted[sorted.length - 1], sorted.findLast((v) => v < sorted[sorted.length - 1])],
  ] as const) {
    if (next === undefined || !DOUBTFUL.has(edge)) continue;
    const count = sorted.reduce((n, v) => n + (v === edge ? 1 : 0), 0);
    const spread = Math.abs(sorted[Math.floor(sorted.length * 0.9)] - sorted[Math.floor(sorted.length * 0.1)]);
    if (count >= 2 && Math.abs(edge - next) > 0.5 * spread) return edge;
  }
  return null;
}

/**
 * A mark that every cell writes without the decimals that the readings have ("-1" beside "18.4"), below or above all of them, twice or more: a logger
 * writes its readings in one form. Null where there is none.
 * @param sorted rising, sentinels left out
 */
export function wholeSentinel(sample: readonly string[], sorted: Float64Array): number | null {
  const whole = sample.filter((cell) => /^[-+]?\d+$/.test(cell));
  const decimals = sample.filter((cell) => /^[-+]?\d+[.,]\d+$/.test(cell)).length;
  const [mark] = whole.map(Number);
  if (whole.length < 2 || decimals < 4 * whole.length || whole.some((cell) => Number(cell) !== mark)) return null;
  return DOUBTFUL.has(mark) && (mark === sorted[0] || mark === sorted[sorted.length - 1]) ? mark : null;
}

/** Steps of the finest difference between two readings: a number so far below 0 is no reading that strayed from rest. */
const FAR_BELOW = 5;

/**
 * The very same number below 0, twice or more, where nothing else is: of a quantity that never falls below 0 it can hardly be a reading. Noise about rest
 * shows several numbers, and a resting meter that stands a little below 0 shows the number most of the time. Null where there is none.
 * @param sorted rising, sentinels left out
 */
export function negativeSentinel(sorted: Float64Array): number | null {
  const [mark] = sorted;
  const count = sorted.findIndex((value) => value !== mark);
  if (!(mark < 0) || count < 2 || sorted[count] < 0 || count * 4 > sorted.length) return null;
  let finest = Number.POSITIVE_INFINITY;
  for (let i = count + 1; i < sorted.length; i++) if (sorted[i] > sorted[i - 1]) finest = Math.min(finest, sorted[i] - sorted[i - 1]);
  return -mark >= FAR_BELOW * finest * (1 - 1e-6) ? mark : null;
}
