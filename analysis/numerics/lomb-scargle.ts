import type { Numbers } from "./order-statistics";
import { logGamma } from "./special-functions";

/**
 * Share of the variance that a tone plus a constant explains at each frequency, 1 - chi2(f) / chi2_0, for any sampling times.
 * Equal to the ordinary periodogram on a full even grid. O(times * frequencies).
 * @param times shape [n], s   @param values shape [n], none missing   @param frequencies shape [m], Hz
 * @returns shape [m], 0 to 1
 * Source: Zechmeister & Kuerster 2009; VanderPlas, ApJS 236 (2018) 16.
 */
export function lombScargle(times: Numbers, values: Numbers, frequencies: Numbers): Float64Array {
  const n = times.length;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += values[i] / n;
  let yy = 0;
  for (let i = 0; i < n; i++) yy += (values[i] - mean) ** 2;
  const power = new Float64Array(frequencies.length);
  for (let k = 0; k < power.length; k++) power[k] = yy > 0 ? explainedAt(times, values, mean, 2 * Math.PI * frequencies[k]) / yy : 0;
  return power;
}

function explainedAt(times: Numbers, values: Numbers, mean: number, w: number): number {
  const n = times.length;
  let c = 0;
  let s = 0;
  let cc = 0;
  let cs = 0;
  let yc = 0;
  let ys = 0;
  for (let i = 0; i < n; i++) {
    const cos = Math.cos(w * times[i]);
    const sin = Math.sin(w * times[i]);
    const y = values[i] - mean;
    c += cos;
    s += sin;
    cc += cos * cos;
    cs += cos * sin;
    yc += y * cos;
    ys += y * sin;
  }
  const ss = n - cc - (s * s) / n;
  cc -= (c * c) / n;
  cs -= (c * s) / n;
  const determinant = cc * ss - cs * cs;
  return determinant > 0 ? (ss * yc * yc + cc * ys * ys - 2 * cs * yc * ys) / determinant : 0;
}

/**
 * Upper bound on the chance that white noise alone has a peak this high anywhere below `highest`. It must not decide on correlated noise:
 * there it is wrong by orders of magnitude.
 * @param peak share of variance, 0 to 1   @param times shape [n], s   @param highest Hz
 * Source: Baluev, MNRAS 385 (2008) 1279.
 */
export function whiteNoiseAlarm(peak: number, times: Numbers, highest: number): number {
  const n = times.length;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += times[i] / n;
  let spread = 0;
  for (let i = 0; i < n; i++) spread += (times[i] - mean) ** 2 / n;
  const width = highest * Math.sqrt(4 * Math.PI * spread);
  const single = ((n - 3) / 2) * Math.log1p(-peak);
  const factor = Math.sqrt(2 / (n - 1)) * Math.exp(logGamma((n - 1) / 2) - logGamma((n - 2) / 2));
  const tau = factor * width * Math.exp(((n - 4) / 2) * Math.log1p(-peak)) * Math.sqrt(((n - 1) * peak) / 2);
  return -Math.expm1(Math.log1p(-Math.exp(single)) - tau);
}
