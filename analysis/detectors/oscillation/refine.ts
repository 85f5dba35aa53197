import { fQuantile, studentQuantile } from "../../numerics/distributions";
import { variance } from "../../numerics/moments";
import { median, robustSpread } from "../../numerics/order-statistics";
import { leastSquaresLine } from "../../numerics/regression";
import { fitTone } from "../../numerics/tone-fit";
import { coherentSum, frequencyOffset, MOST_BLOCKS, phaseStep, turnedSum } from "./block-phases";
import { blocksAlong, trackedPhases } from "./tracked-phase";
import { type Samples, type WaveBlocks, waveBlocks } from "./waves";

/** A wave as exactly as the samples allow. */
export type RefinedWave = {
  readonly frequency: number;
  readonly frequencyLow: number;
  readonly frequencyHigh: number;
  readonly amplitude: number;
  readonly amplitudeSd: number;
  readonly degreesOfFreedom: number;
  /** Share of the variance (straight line removed) that the tone carries. */
  readonly share: number;
  /** One phase from end to end; a wandering wave has none. */
  readonly coherent: boolean;
  readonly blocks: WaveBlocks;
};

/** Noise around the tone's frequency as the search found it: two-sided density, Pa^2 s, on so many independent bins. */
export type NoiseAround = { readonly density: number; readonly carriedBy: number };

/** The bounds count on the whole span; where its ends are unsure, on what is left without them (but at least this part). */
const LEAST_SURE = 0.6;

/** Part of the power that must keep one phase for the wave to count as one tone. */
const COHERENT = 0.7;

/**
 * Period and size of an episode's wave. One phase from end to end: least squares of the tone on the raw samples, the interval from the noise
 * found around the tone's own frequency (not assumed white) and Rife & Boorstyn's bound for it. A wandering wave: mean frequency from the
 * phase steps between blocks, interval from their scatter.
 */
export function refineWave(samples: Samples, roughPeriod: number, around: NoiseAround, unsure: number): RefinedWave | null {
  const span = samples.times[samples.times.length - 1] - samples.times[0];
  const waves = span / roughPeriod;
  const perBlock = Math.max(waves >= 16 ? 2 : 1, Math.ceil(waves / MOST_BLOCKS));
  let f = 1 / roughPeriod;
  for (let round = 0; round < 2; round++) f += frequencyOffset(blocksOver(samples, f, perBlock));
  const tone =
    samples.times.length > MOST_FOR_LEAST_SQUARES ? toneOfBlocks(blocksOver(samples, f, perBlock), f) : leastSquaresTone(samples, f);
  if (tone === null) return null;
  const blocks = blocksOver(samples, tone.frequency, perBlock);
  const summary = summarise(blocks);
  if (summary === null) return null;
  const total = varianceAroundLine(samples);
  if (summary.coherence < COHERENT || phaseDrifts(blocks, (2 * around.density) / blocks.length / tone.amplitude ** 2)) {
    const perWave = samples.times.length / waves;
    return wandering(samples, blocksOver(samples, f, perWave >= LEAST_A_BLOCK ? Math.ceil(perBlock / 2) : perBlock), around, total);
  }
  const { noise, degreesOfFreedom } = noiseOf(summary, around, span / (samples.times.length - 1));
  const spread = timeSpread(samples.times);
  const sure = Math.max(LEAST_SURE, 1 - unsure / span);
  const frequencySd = (noise * Math.SQRT2) / (2 * Math.PI * tone.amplitude * spread) / sure ** 1.5;
  const reach = frequencySd * studentQuantile(0.975, degreesOfFreedom);
  return {
    frequency: tone.frequency,
    frequencyLow: tone.frequency - reach,
    frequencyHigh: tone.frequency + reach,
    amplitude: tone.amplitude,
    amplitudeSd: noise * Math.sqrt(2 / samples.times.length / sure),
    degreesOfFreedom,
    share: Math.min(1, tone.amplitude ** 2 / 2 / total),
    coherent: true,
    blocks,
  };
}

/** More samples than this are fitted block by block, which comes to the same where a block is short against the phase's drift. */
const MOST_FOR_LEAST_SQUARES = 4000;

/** Standard deviations of chance (one in twenty) by which neighbouring phases may agree more than those of noise about one steady phase. */
const BY_CHANCE = 1.64;

/**
 * Whether the phase drifts from block to block as a random walk does: then its neighbours agree more than each does with the straight line, and the bound
 * for one steady tone would be far too narrow. By the mean square of successive differences over the variance (von Neumann 1941): 2 for independent errors.
 * A variance that the noise around explains is none of a drift.
 */
function phaseDrifts({ re, im }: WaveBlocks, byNoise: number): boolean {
  const [a, b] = turnedSum(re, im, 0);
  let [n, squares, pairs, steps, before] = [0, 0, 0, 0, Number.NaN];
  for (let j = 0; j < re.length; j++) {
    const phase = Math.atan2(im[j] * a - re[j] * b, re[j] * a + im[j] * b);
    const step = phase - before;
    before = phase;
    if (phase - phase !== 0) continue;
    n++;
    squares += phase * phase;
    if (step - step !== 0) continue;
    pairs++;
    steps += step * step;
  }
  return squares / n > byNoise && steps / pairs / (squares / n) < 2 - BY_CHANCE * 2 * Math.sqrt((n - 2) / (n * n - 1));
}

/** Fewer samples hold no wave of their own. */
const LEAST_A_BLOCK = 5;

type FittedTone = { readonly frequency: number; readonly amplitude: number };

const leastSquaresTone = ({ times, values }: Samples, f: number): FittedTone | null =>
  fitTone(times, values, f, 0.7 / (times[times.length - 1] - times[0]), "line");

function toneOfBlocks(blocks: WaveBlocks, f: number): FittedTone {
  const offset = frequencyOffset(blocks);
  const { re, im, length } = blocks;
  const present = re.reduce((count, v) => count + (v - v === 0 ? 1 : 0), 0);
  return { frequency: f + offset, amplitude: Math.sqrt(coherentSum(re, im, 2 * Math.PI * offset * length)) / present };
}

/** Size of white noise (one sample) with the density found around the tone, pooled with the
 * scatter of the blocks; where the blocks scatter clearly more, they alone are believed. */
function noiseOf(summary: BlockSummary, around: NoiseAround, interval: number): { noise: number; degreesOfFreedom: number } {
  const ofSearch = around.density / interval;
  const ofBlocks = (summary.samplesPerBlock * summary.noiseVariance) / 4;
  const searched = 2 * around.carriedBy;
  const scattered = summary.degreesOfFreedom;
  if (ofBlocks > ofSearch * fQuantile(0.99, scattered, searched)) return { noise: Math.sqrt(ofBlocks), degreesOfFreedom: scattered };
  const both = (searched * ofSearch + scattered * ofBlocks) / (searched + scattered);
  return { noise: Math.sqrt(both), degreesOfFreedom: searched + scattered };
}

/** Variance of the values less their straight line of least squares. */
function varianceAroundLine({ times, values }: Samples): number {
  const line = leastSquaresLine(times, values);
  return line === null ? Number.NaN : line.residualSd ** 2;
}

const blocksOver = (samples: Samples, f: number, perBlock: number): WaveBlocks => {
  const span = samples.times[samples.times.length - 1] - samples.times[0];
  const count = Math.max(1, Math.floor((span * f) / perBlock + 0.02));
  return waveBlocks(samples, f, perBlock, samples.times[0] - 1e-9, count);
};

type BlockSummary = {
  readonly coherence: number;
  readonly noiseVariance: number;
  readonly degreesOfFreedom: number;
  readonly samplesPerBlock: number;
  readonly meanSquare: number;
};

/** How far the blocks agree: their mean against their scatter around it (or around their neighbours, where the phase wanders). */
function summarise({ re, im, counts }: WaveBlocks): BlockSummary | null {
  let n = 0;
  let a = 0;
  let b = 0;
  let square = 0;
  let steps = 0;
  let samples = 0;
  let sizes = 0;
  for (let j = 0; j < re.length; j++) {
    if (re[j] - re[j] !== 0) continue;
    n++;
    a += re[j];
    b += im[j];
    square += re[j] ** 2 + im[j] ** 2;
    samples += counts[j];
    const size = Math.hypot(re[j], im[j]);
    sizes += size;
    const d = (re[j] - re[j - 1]) ** 2 + (im[j] - im[j - 1]) ** 2;
    if (d - d === 0) steps += d / 2;
  }
  if (n < 3) return null;
  const mean = (a * a + b * b) / (n * n);
  const scatter = (square / n - mean) * (n / (n - 1.5)); // mean, and half of another parameter for the frequency's slope
  const along = (2 * (square - sizes ** 2 / n)) / (n - 1); // of the sizes alone: turning phases do not enlarge it
  const noise = Math.min(scatter, steps / (n - 1), along);
  const signal = Math.max(square / n - noise, Number.MIN_VALUE);
  return {
    coherence: Math.max(0, mean - noise / n) / signal,
    noiseVariance: scatter,
    degreesOfFreedom: Math.max(1, 2 * n - 3),
    samplesPerBlock: samples / n,
    meanSquare: signal,
  };
}

function wandering(samples: Samples, blocks: WaveBlocks, around: NoiseAround, total: number): RefinedWave | null {
  const steps: number[] = [];
  const group = Math.max(1, Math.floor(blocks.re.length / 12));
  for (let j = 0; j + group < blocks.re.length; j += group) {
    const phase = phaseStep(blocks, j, j + group);
    if (Number.isFinite(phase)) steps.push(phase / (2 * Math.PI * blocks.length));
  }
  if (steps.length < 3) return null;
  const mean = steps.reduce((sum, v) => sum + v, 0) / steps.length;
  const reach = Math.sqrt(variance(steps) / steps.length) * studentQuantile(0.975, steps.length - 1);
  const frequency = blocks.frequency + mean;
  const { size, sd, count } = usualSize(blocksAlong(samples, blocks, trackedPhases(samples, blocks)), around);
  return {
    frequency,
    frequencyLow: frequency - reach,
    frequencyHigh: frequency + reach,
    amplitude: size,
    amplitudeSd: sd,
    degreesOfFreedom: Math.max(1, count - 1),
    share: Math.min(1, size ** 2 / 2 / total),
    coherent: false,
    blocks,
  };
}

/** Of independent values of a normal spread the median scatters so much more than the mean. */
const MEDIAN_OVER_MEAN = Math.sqrt(Math.PI / 2);

/**
 * The size in the middle of those of all blocks: a block in which a draw begins is no larger wave. Noise of s^2 in each of the two components of
 * a block lengthens its size on average by s^2 / 2A (Rice 1944), which is taken off.
 */
function usualSize({ re, im, length }: WaveBlocks, around: NoiseAround) {
  const sizes = Float64Array.from(re, (v, j) => Math.hypot(v, im[j])).filter((v) => v - v === 0);
  const spread = robustSpread(sizes);
  const noise = Math.min(spread ** 2, (2 * around.density) / length);
  return {
    size: Math.sqrt(Math.max(0, median(sizes) ** 2 - noise)),
    sd: (MEDIAN_OVER_MEAN * spread) / Math.sqrt(sizes.length),
    count: sizes.length,
  };
}

/** Square root of the sum of squared distances from the mean time. */
function timeSpread(times: Float64Array): number {
  let mean = 0;
  for (const t of times) mean += t / times.length;
  let sum = 0;
  for (const t of times) sum += (t - mean) ** 2;
  return Math.sqrt(sum);
}
