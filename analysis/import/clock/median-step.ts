/** The usual step from one row to the next, s: median of the steps forward over an even choice of some thousands; NaN where there is none. Times [n], s. */
export function medianStep(times: Float64Array): number {
  const stride = Math.max(1, Math.floor(times.length / 8000));
  const steps: number[] = [];
  for (let i = 1; i < times.length; i += stride) {
    const step = times[i] - times[i - 1];
    if (step > 0) steps.push(step);
  }
  const sorted = Float64Array.from(steps).sort();
  return sorted[sorted.length >> 1] ?? Number.NaN;
}
