import type { OscillationEpisode } from "../../../shared/findings/finding";
import type { RefinedWave } from "./refine";
import { trackedPhases } from "./tracked-phase";
import { type Samples, samplesPerWave, steadyPhases } from "./waves";

export type WaveShape = {
  readonly shape: OscillationEpisode["shape"];
  /** Top to bottom of the wave over twice the amplitude of its first harmonic: 1 for a sine. */
  readonly peakToPeakFactor: number;
  /** The same if what noise hides or sampling cannot show is that of a wave with kinks. */
  readonly factorWithUnseen: number;
};

const MOST_HARMONICS = 5;
type Harmonic = { readonly re: number; readonly im: number };
const NOTHING: Harmonic = { re: 0, im: 0 };

/** Pressure rises quicker than it falls where a pump drives the wave: the kinked wave that an unclear one may be. */
const QUICK_RISE = 0.25;

/**
 * Shape of the mean wave from its harmonics two to five, laid against those of a sine, a triangle of any rise and a square of any duty
 * (Fourier series: triangle sin(pi m d) / m^2, pulse sin(pi m d) / m). With fewer than seven samples a wave, or much noise, it stays unclear.
 * Its height is that of the harmonics which stand out of the noise, and what a triangle or a square has beyond the last of them.
 */
export function shapeOf(samples: Samples, wave: RefinedWave): WaveShape {
  const perWave = samplesPerWave(samples, wave.frequency);
  const most = Math.min(MOST_HARMONICS, Math.floor(perWave / 2 - 0.5));
  if (most < 3) return unclear([]);
  const { harmonics, noise } = harmonicsOf(samples, wave, most);
  const significant = harmonics.map((h) => (Math.hypot(h.re, h.im) > 3 * noise ? h : NOTHING));
  if (noise > 0.06) return unclear(significant);
  const sine = distance(harmonics, () => NOTHING);
  const allowed = 0.07 ** 2 + 8 * noise * noise;
  // A triangle lies near a sine: where both would do, the plainer one is said only when no harmonic stands out of the noise.
  if (sine < allowed && significant.every((h) => Math.hypot(h.re, h.im) < 0.05)) return shaped("sine", heightOf(significant) / 2);
  const triangle = nearest(0.04, (d) => distance(harmonics, (m) => triangleHarmonic(m, d)));
  const square = nearest(0.3, (d) => distance(harmonics, (m) => squareHarmonic(m, d)));
  if (Math.min(sine, triangle.distance, square.distance) >= 4 * allowed) return unclear(significant);
  if (sine <= triangle.distance && sine <= square.distance) return shaped("sine", heightOf(significant) / 2);
  const seen = heightOf(significant) / 2;
  if (square.distance < triangle.distance)
    return shaped("square", seen * beyond(most, squareFactor(square.at), (m) => squareHarmonic(m, square.at)));
  const whole = triangleFactor(triangle.at);
  return shaped("triangle", seen * beyond(most, whole, (m) => triangleHarmonic(m, triangle.at)), whole);
}

const shaped = (shape: OscillationEpisode["shape"], factor: number, whole = factor): WaveShape => ({
  shape,
  peakToPeakFactor: factor,
  factorWithUnseen: Math.max(factor, whole),
});

/** What cannot be seen of it may be as much as in a triangle that is known only up to the same harmonic. */
function unclear(significant: readonly Harmonic[]): WaveShape {
  const last = significant.findLastIndex((h) => h !== NOTHING) + 2;
  const factor = heightOf(significant) / 2;
  const unseen = beyond(last, triangleFactor(QUICK_RISE), (m) => triangleHarmonic(m, QUICK_RISE));
  return { shape: "unclear", peakToPeakFactor: factor, factorWithUnseen: factor * unseen };
}

/** Height of a known wave over that of its harmonics up to this one. */
function beyond(last: number, factor: number, harmonic: (m: number) => Harmonic): number {
  return factor / (heightOf(Array.from({ length: last - 1 }, (_, k) => harmonic(k + 2))) / 2);
}

/** Phase of each sample, rad: that of a steady wave, or of one that wanders; NaN where none is known. */
export const phasesOf = (samples: Samples, { coherent, blocks, frequency }: RefinedWave): Float64Array =>
  coherent ? steadyPhases(samples.times, frequency, blocks.origin) : trackedPhases(samples, blocks);

/** Harmonics 2 .. most relative to the first and turned so that the first has phase 0; with the standard deviation of one component. */
function harmonicsOf({ times, values }: Samples, wave: RefinedWave, most: number): { harmonics: Harmonic[]; noise: number } {
  const re = new Float64Array(most + 1);
  const im = new Float64Array(most + 1);
  const { blocks } = wave;
  const phases = phasesOf({ times, values }, wave);
  const blockAt = (i: number) => Math.floor((times[i] - blocks.origin) / blocks.length);
  const used: number[] = [];
  let sum = 0;
  for (let i = 0; i < times.length; i++) {
    if (!Number.isFinite(blocks.re[blockAt(i)])) continue;
    used.push(i);
    sum += values[i];
  }
  const n = used.length;
  const mean = sum / n;
  let squares = 0;
  for (const i of used) {
    const angle = phases[i];
    const y = values[i] - mean;
    squares += y * y;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    let cm = 1;
    let sm = 0;
    for (let m = 1; m <= most; m++) {
      const turned = cm * c - sm * s;
      sm = sm * c + cm * s;
      cm = turned;
      re[m] += y * cm;
      im[m] -= y * sm;
    }
  }
  const size = Math.hypot(re[1], im[1]);
  const turn = Math.atan2(im[1], re[1]);
  const harmonics = Array.from({ length: most - 1 }, (_, k) => {
    const m = k + 2;
    const angle = Math.atan2(im[m], re[m]) - m * turn;
    const part = Math.hypot(re[m], im[m]) / size;
    return { re: part * Math.cos(angle), im: part * Math.sin(angle) };
  });
  const amplitude = (2 * size) / n;
  const rest = Math.max(0, squares / n - amplitude ** 2 / 2);
  return { harmonics, noise: Math.sqrt((2 * rest) / n) / amplitude };
}

/** Top to bottom of cos x + sum of the harmonics. */
function heightOf(harmonics: readonly Harmonic[]): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < 360; i++) {
    const x = (i / 180) * Math.PI;
    const y = harmonics.reduce((sum, h, k) => sum + h.re * Math.cos((k + 2) * x) - h.im * Math.sin((k + 2) * x), Math.cos(x));
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  return high - low;
}

/** sum of b_m sin m x, turned so that the first harmonic is a cosine: the m-th gets phase (m - 1) pi / 2. */
function triangleHarmonic(m: number, rise: number): Harmonic {
  const b = Math.sin(Math.PI * m * rise) / (m * m * Math.sin(Math.PI * rise));
  const angle = ((m - 1) * Math.PI) / 2;
  return { re: b * Math.cos(angle), im: b * Math.sin(angle) };
}

const squareHarmonic = (m: number, duty: number): Harmonic => ({
  re: Math.sin(Math.PI * m * duty) / (m * Math.sin(Math.PI * duty)),
  im: 0,
});

const distance = (harmonics: readonly Harmonic[], model: (m: number) => Harmonic): number =>
  harmonics.reduce((sum, h, k) => sum + (h.re - model(k + 2).re) ** 2 + (h.im - model(k + 2).im) ** 2, 0);

function nearest(low: number, of: (d: number) => number): { readonly at: number; readonly distance: number } {
  let best = { at: low, distance: Number.POSITIVE_INFINITY };
  for (let d = low; d <= 1 - low + 1e-9; d += 0.005) if (of(d) < best.distance) best = { at: d, distance: of(d) };
  return best;
}

/** Of a triangle from -1 to 1 the first harmonic is 2 sin(pi d) / (pi^2 d (1 - d)), of a pulse 4 sin(pi d) / pi. */
const triangleFactor = (rise: number): number => (Math.PI ** 2 * rise * (1 - rise)) / (2 * Math.sin(Math.PI * rise));
const squareFactor = (duty: number): number => Math.PI / (4 * Math.sin(Math.PI * duty));
