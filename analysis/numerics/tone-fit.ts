import type { Numbers } from "./order-statistics";
import { choleskySolve } from "./small-system";

/** value = mean + slope * (t - centre) + cosine * cos(2 pi f (t - centre)) + sine * sin(2 pi f (t - centre)). */
export type Tone = {
  readonly frequency: number;
  readonly amplitude: number;
  readonly cosine: number;
  readonly sine: number;
  readonly mean: number;
  readonly slope: number;
  /** s; the middle of the times. */
  readonly centre: number;
  /** Over n less the parameters. */
  readonly residualSd: number;
  /** For white residuals; the caller scales it by the noise at the tone's own frequency. */
  readonly frequencySd: number;
  readonly amplitudeSd: number;
};

/**
 * The tone of least squares near a start: Gauss-Newton on all parameters at once, its frequency held within the half width.
 * Reaches the Cramer-Rao bound where the start lies in the right lobe (within about half of 1/span).
 * @param times shape [n], s, any sampling   @param values shape [n], none missing
 * @param trend whether a straight line is fitted with the tone, or a constant only
 * @returns null with fewer values than parameters or where the fit does not part
 * Source: Rife & Boorstyn 1974 (bound); Bates & Watts 1988 (method).
 */
export function fitTone(times: Numbers, values: Numbers, start: number, halfWidth: number, trend: "constant" | "line"): Tone | null {
  const n = times.length;
  const linear = trend === "line" ? 4 : 3;
  if (n <= linear + 1) return null;
  const centre = (times[0] + times[n - 1]) / 2;
  const scale = Math.max(times[n - 1] - centre, Number.MIN_VALUE);
  let f = start;
  let state = evaluate(times, values, f, centre, scale, linear);
  for (let round = 0; round < 60 && state !== null; round++) {
    const next = Math.min(start + halfWidth, Math.max(start - halfWidth, f + state.step));
    let trial = next;
    let found = evaluate(times, values, trial, centre, scale, linear);
    for (let halvings = 0; halvings < 20 && found !== null && found.rss > state.rss * (1 + 1e-13); halvings++) {
      trial = (trial + f) / 2;
      found = evaluate(times, values, trial, centre, scale, linear);
    }
    if (found === null) break;
    const moved = Math.abs(trial - f);
    f = trial;
    state = found;
    if (moved <= 1e-12 * Math.abs(f)) break;
  }
  return state === null ? null : toTone(state, f, n, centre, scale, linear);
}

type Evaluation = {
  readonly beta: Float64Array;
  readonly rss: number;
  /** Gauss-Newton step of the frequency at the best linear parameters. */
  readonly step: number;
  readonly frequencyVariance: number;
  readonly amplitudeVariance: number;
};

/** Cosine and sine of the tone at every time, taken once a trial; the arrays are used again by the next one. */
let turns = { cosine: new Float64Array(0), sine: new Float64Array(0) };

/** Linear parameters at f, then the derivative column of f: the step and the variances come from the joint normal equations. */
function evaluate(times: Numbers, values: Numbers, f: number, centre: number, scale: number, linear: number): Evaluation | null {
  const w = 2 * Math.PI * f;
  const sums = accumulate(times, values, w, centre, scale);
  const order = linear === 4 ? [0, 1, 2, 3] : [0, 2, 3]; // constant, line, cosine, sine
  const normal = order.map((i) => order.map((j) => sums.xx[i * 4 + j]));
  const beta = choleskySolve(
    normal,
    order.map((i) => sums.xy[i]),
  );
  if (beta === null) return null;
  const full = new Float64Array(4);
  for (const [k, i] of order.entries()) full[i] = beta[k];
  return withDerivative(times, values, centre, scale, order, normal, full);
}

/** Products of the columns with each other, shape [4 * 4], and with the values, shape [4]; fills `turns`. */
function accumulate(times: Numbers, values: Numbers, w: number, centre: number, scale: number): { xx: number[]; xy: number[] } {
  const n = times.length;
  if (turns.cosine.length < n) turns = { cosine: new Float64Array(n), sine: new Float64Array(n) };
  const { cosine, sine } = turns;
  let sumU = 0;
  let sumC = 0;
  let sumS = 0;
  let sumY = 0;
  let uu = 0;
  let uc = 0;
  let us = 0;
  let uy = 0;
  let cc = 0;
  let cs = 0;
  let cy = 0;
  let ss = 0;
  let sy = 0;
  for (let i = 0; i < n; i++) {
    const t = times[i] - centre;
    const u = t / scale;
    const c = Math.cos(w * t);
    const s = Math.sin(w * t);
    const y = values[i];
    cosine[i] = c;
    sine[i] = s;
    sumY += y;
    sumU += u;
    sumC += c;
    sumS += s;
    uy += u * y;
    uu += u * u;
    uc += u * c;
    us += u * s;
    cy += c * y;
    cc += c * c;
    cs += c * s;
    sy += s * y;
    ss += s * s;
  }
  const xx = [n, sumU, sumC, sumS, sumU, uu, uc, us, sumC, uc, cc, cs, sumS, us, cs, ss];
  return { xx, xy: [sumY, uy, cy, sy] };
}

function withDerivative(
  times: Numbers,
  values: Numbers,
  centre: number,
  scale: number,
  order: readonly number[],
  normal: number[][],
  beta: Float64Array,
): Evaluation | null {
  const { cosine, sine } = turns;
  const [b0, b1, b2, b3] = beta;
  let constant = 0;
  let line = 0;
  let alongC = 0;
  let alongS = 0;
  let dd = 0;
  let dr = 0;
  let rss = 0;
  for (let i = 0; i < times.length; i++) {
    const u = times[i] - centre;
    const c = cosine[i];
    const s = sine[i];
    const rest = values[i] - b0 - (b1 * u) / scale - b2 * c - b3 * s;
    const d = u * (b3 * c - b2 * s); // per rad/s
    rss += rest * rest;
    dr += d * rest;
    dd += d * d;
    constant += d;
    line += (d * u) / scale;
    alongC += d * c;
    alongS += d * s;
  }
  const cross = [constant, line, alongC, alongS];
  const coupling = order.map((i) => cross[i]);
  const projected = choleskySolve(normal, coupling);
  if (projected === null) return null;
  const information = dd - coupling.reduce((sum, v, k) => sum + v * projected[k], 0);
  if (!(information > 0)) return null;
  const amplitude = Math.hypot(beta[2], beta[3]);
  return {
    beta,
    rss,
    step: dr / information / (2 * Math.PI),
    frequencyVariance: 1 / information / (4 * Math.PI * Math.PI),
    amplitudeVariance: amplitude > 0 ? 2 / times.length : Number.NaN,
  };
}

function toTone(state: Evaluation, f: number, n: number, centre: number, scale: number, linear: number): Tone {
  const residualSd = Math.sqrt(state.rss / (n - linear - 1));
  return {
    frequency: f,
    amplitude: Math.hypot(state.beta[2], state.beta[3]),
    cosine: state.beta[2],
    sine: state.beta[3],
    mean: state.beta[0],
    slope: state.beta[1] / scale,
    centre,
    residualSd,
    frequencySd: residualSd * Math.sqrt(state.frequencyVariance),
    amplitudeSd: residualSd * Math.sqrt(state.amplitudeVariance),
  };
}

/**
 * The least standard deviation that any unbiased estimate of a tone's frequency can have, Hz: one real tone in white noise, even sampling,
 * amplitude, phase and mean unknown. Source: Rife & Boorstyn, IEEE Trans. IT 20 (1974) 591.
 */
export const frequencyBound = (count: number, interval: number, amplitude: number, noise: number): number =>
  Math.sqrt((24 * noise * noise) / (amplitude * amplitude * count * (count * count - 1))) / (2 * Math.PI * interval);
