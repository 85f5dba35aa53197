/** One change of a column from smaller to larger values or back. */
export type RankChange = {
  /** First value after the change. */
  readonly at: number;
  /** Chance that a value after it is larger than one before it: 0.5 where nothing changed, 1 or 0 where they do not overlap. */
  readonly larger: number;
};

/**
 * Where a column changes once for all, by ranks: the greatest |sum of ranks before, less its mean| (Pettitt, Applied Statistics 28 (1979) 126), and how far
 * the two parts overlap (Mann & Whitney 1947). Outliers and the scale of the values do not matter. O(n log n)
 * @param values shape [n], none missing   @param least values on either side   @returns null below twice as many
 */
export function rankChange(values: ArrayLike<number>, least: number): RankChange | null {
  const n = values.length;
  if (n < 2 * least || least < 1) return null;
  const ranks = ranksOf(values);
  let [sum, most, at, sumAt] = [0, -1, least, 0];
  for (let t = 1; t <= n - least; t++) {
    sum += ranks[t - 1];
    const size = Math.abs(2 * sum - t * (n + 1));
    if (t >= least && size > most) [most, at, sumAt] = [size, t, sum];
  }
  const after = n - at;
  const sumAfter = (n * (n + 1)) / 2 - sumAt;
  return { at, larger: (sumAfter - (after * (after + 1)) / 2) / (at * after) };
}

/** Ranks from 1, equal values sharing their mean. */
function ranksOf(values: ArrayLike<number>): Float64Array {
  const order = Uint32Array.from({ length: values.length }, (_, i) => i).sort((a, b) => values[a] - values[b]);
  const ranks = new Float64Array(values.length);
  for (let i = 0, end = 0; i < order.length; i = end) {
    while (end < order.length && values[order[end]] === values[order[i]]) end++;
    for (let k = i; k < end; k++) ranks[order[k]] = (i + end + 1) / 2;
  }
  return ranks;
}
