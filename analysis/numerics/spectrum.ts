import { fourierPlan } from "./fast-fourier";
import { medianAverage, removeLine, removeMean } from "./spectrum-parts";

export type WelchChoices = {
  /** Values a second, Hz. */
  readonly rate: number;
  /** Length of a segment, a power of two. */
  readonly segment: number;
  /** Values shared by neighbouring segments; half a segment if left out. */
  readonly overlap?: number;
  readonly detrend?: "constant" | "linear";
  readonly average?: "mean" | "median";
  /** "density": unit^2 / Hz; "spectrum": unit^2. */
  readonly scaling?: "density" | "spectrum";
};

export type PowerSpectrum = {
  /** Hz between bins; bin k stands at k * step. */
  readonly step: number;
  /** One-sided, shape [segment/2 + 1]. */
  readonly power: Float64Array;
};

/** Periodic Hann window, shape [n]: 0.5 - 0.5 cos(2 pi i / n). */
export function hannWindow(n: number): Float64Array {
  return Float64Array.from({ length: n }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / n));
}

/**
 * Power spectrum by Welch's method: overlapping Hann segments, each detrended, averaged. No missing values.
 * The median average is divided by its bias and is not moved by a few loud segments.
 * Source: Welch 1967; median bias as scipy.signal.welch.   @throws RangeError where the values are shorter than a segment
 */
export function welch(values: Float64Array, choices: WelchChoices): PowerSpectrum {
  const { auto } = segmentsOf([values], choices);
  const power = choices.average === "median" ? medianAverage(auto[0]) : meanOf(auto[0]);
  return { step: choices.rate / choices.segment, power: oneSided(power) };
}

export type CrossSpectrum = {
  readonly step: number;
  /** Magnitude-squared coherence, 0 to 1, shape [segment/2 + 1]. */
  readonly coherence: Float64Array;
  /** Cross spectral density conj(X) Y, one-sided. Its angle is by how much y leads x. */
  readonly re: Float64Array;
  readonly im: Float64Array;
};

/**
 * Coherence and cross spectrum of two columns of one length, segment means removed. One segment alone has coherence 1 and says nothing.
 * Source: Bendat & Piersol; conventions of scipy.signal.coherence and csd.
 */
export function crossSpectrum(x: Float64Array, y: Float64Array, choices: WelchChoices): CrossSpectrum {
  const { auto, crossRe, crossIm } = segmentsOf([x, y], choices);
  const re = meanOf(crossRe);
  const im = meanOf(crossIm);
  const pxx = meanOf(auto[0]);
  const pyy = meanOf(auto[1]);
  const coherence = re.map((r, k) => (pxx[k] * pyy[k] > 0 ? (r * r + im[k] * im[k]) / (pxx[k] * pyy[k]) : 0));
  return { step: choices.rate / choices.segment, coherence, re: oneSided(re), im: oneSided(im) };
}

function segmentsOf(columns: readonly Float64Array[], choices: WelchChoices) {
  const { segment, rate, overlap = segment / 2, detrend = "constant", scaling = "density" } = choices;
  const n = columns[0].length;
  if (n < segment) throw new RangeError(`spectrum: ${n} values for a segment of ${segment}`);
  const plan = fourierPlan(segment);
  const taper = hannWindow(segment);
  const sum = taper.reduce((s, w) => s + w, 0);
  const squares = taper.reduce((s, w) => s + w * w, 0);
  const scale = scaling === "density" ? 1 / (rate * squares) : 1 / (sum * sum);
  const auto: Float64Array[][] = columns.map(() => []);
  const crossRe: Float64Array[] = [];
  const crossIm: Float64Array[] = [];
  for (let start = 0; start + segment <= n; start += segment - overlap) {
    const bins = columns.map((column) => {
      const part = column.slice(start, start + segment);
      if (detrend === "linear") removeLine(part);
      else removeMean(part);
      for (let i = 0; i < segment; i++) part[i] *= taper[i];
      return plan.forwardReal(part).slice();
    });
    for (const [c, b] of bins.entries()) auto[c].push(products(b, b, scale).re);
    if (bins.length === 2) {
      const cross = products(bins[0], bins[1], scale);
      crossRe.push(cross.re);
      crossIm.push(cross.im);
    }
  }
  return { auto, crossRe, crossIm };
}

/** conj(a) * b bin by bin, scaled. */
function products(a: Float64Array, b: Float64Array, scale: number): { re: Float64Array; im: Float64Array } {
  const re = new Float64Array(a.length / 2);
  const im = new Float64Array(a.length / 2);
  for (let k = 0; k < re.length; k++) {
    re[k] = scale * (a[2 * k] * b[2 * k] + a[2 * k + 1] * b[2 * k + 1]);
    im[k] = scale * (a[2 * k] * b[2 * k + 1] - a[2 * k + 1] * b[2 * k]);
  }
  return { re, im };
}

function meanOf(rows: readonly Float64Array[]): Float64Array {
  const total = new Float64Array(rows[0].length);
  for (const row of rows) for (let k = 0; k < total.length; k++) total[k] += row[k] / rows.length;
  return total;
}

/** Doubles all bins but the first and the last. */
function oneSided(power: Float64Array): Float64Array {
  for (let k = 1; k < power.length - 1; k++) power[k] *= 2;
  return power;
}
