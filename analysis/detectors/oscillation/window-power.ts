import { fourierPlan } from "../../numerics/fast-fourier";

/** Power of a zero-padded window in bins of 1/size, 0 .. size/2, and its running sums; the arrays are used again by the next window. */
export type PaddedPower = { readonly power: Float64Array; readonly sums: Float64Array };
const paddedPowers = new Map<number, PaddedPower>();

function arraysOf(key: number, highest: number): PaddedPower {
  let padded = paddedPowers.get(key);
  if (padded === undefined) {
    padded = { power: new Float64Array(highest + 1), sums: new Float64Array(highest + 2) };
    paddedPowers.set(key, padded);
  }
  return padded;
}

export function paddedPower(part: Float64Array, size: number): PaddedPower {
  const padded = arraysOf(size, size / 2);
  const { power, sums } = padded;
  const bins = fourierPlan(size).forwardReal(part);
  let sum = 0;
  for (let k = 0; k < power.length; k++) {
    const p = bins[2 * k] * bins[2 * k] + bins[2 * k + 1] * bins[2 * k + 1];
    power[k] = p;
    sum += p;
    sums[k + 1] = sum;
  }
  return padded;
}

/**
 * A quick look at twice the resolution without padding: between two bins stands (pi / 4)^2 of their difference's power, which is exact for a tone
 * half-way. Bins of 1 / 2n.
 */
export function screen(part: Float64Array): PaddedPower {
  const n = part.length;
  const padded = arraysOf(-2 * n, n);
  const { power, sums } = padded;
  const bins = fourierPlan(n).forwardReal(part);
  const between = (Math.PI / 4) ** 2;
  let sum = 0;
  for (let k = 0; k <= n / 2; k++) {
    const re = bins[2 * k];
    const im = bins[2 * k + 1];
    power[2 * k] = re * re + im * im;
    sum += power[2 * k];
    sums[2 * k + 1] = sum;
    if (k === n / 2) break;
    const dr = re - bins[2 * k + 2];
    const di = im - bins[2 * k + 3];
    power[2 * k + 1] = between * (dr * dr + di * di);
    sum += power[2 * k + 1];
    sums[2 * k + 2] = sum;
  }
  return padded;
}

/** Cosine and sine over a window, used again by the next of its length. */
let tones = { cosine: new Float64Array(0), sine: new Float64Array(0) };

/**
 * Power of the window less its tone of least squares at a period: what a strong tone spills into its neighbours would else pass for background.
 * @returns shape [size/2 + 1]; the same array as the next call's
 */
export function powerWithoutTone(part: Float64Array, period: number, size: number): Float64Array {
  const n = part.length;
  let cc = 0;
  let cs = 0;
  let ss = 0;
  let yc = 0;
  let ys = 0;
  if (tones.cosine.length !== n) tones = { cosine: new Float64Array(n), sine: new Float64Array(n) };
  const { cosine, sine } = tones;
  const turnC = Math.cos((2 * Math.PI) / period);
  const turnS = Math.sin((2 * Math.PI) / period);
  let c = 1;
  let s = 0;
  for (let i = 0; i < n; i++) {
    cosine[i] = c;
    sine[i] = s;
    cc += c * c;
    cs += c * s;
    ss += s * s;
    yc += part[i] * c;
    ys += part[i] * s;
    const turned = c * turnC - s * turnS;
    s = s * turnC + c * turnS;
    c = turned;
  }
  const determinant = cc * ss - cs * cs;
  const a = (ss * yc - cs * ys) / determinant;
  const b = (cc * ys - cs * yc) / determinant;
  for (let i = 0; i < n; i++) cosine[i] = part[i] - a * cosine[i] - b * sine[i];
  return paddedPower(cosine, size).power;
}
