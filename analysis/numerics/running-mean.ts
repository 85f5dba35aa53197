/** Mean over `half` places to either side, fewer at the ends. No value may be missing. Shape [n] -> [n]. O(n) */
export function runningMean(values: Float64Array, half: number): Float64Array {
  if (half <= 0) return values;
  const means = new Float64Array(values.length);
  let sum = 0;
  let first = 0;
  let end = 0;
  for (let i = 0; i < values.length; i++) {
    while (end < values.length && end <= i + half) sum += values[end++];
    while (first < i - half) sum -= values[first++];
    means[i] = sum / (end - first);
  }
  return means;
}
