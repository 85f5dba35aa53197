import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";

/** Samples of a channel between two instants: shape [n] each, s and SI, none missing. */
export type Samples = { readonly times: Float64Array; readonly values: Float64Array };

/** More than this many samples are averaged in groups that stay well below a period. */
const MOST_SAMPLES = 20_000;

/** A channel's own samples in a span. Where there are very many and the period allows it, means of `group` neighbours stand for them. */
export function samplesIn(channel: Channel, from: number, to: number, period: number): Samples {
  const first = indexAtOrAfter(channel.sampling, from - 1e-6);
  const end = indexAtOrAfter(channel.sampling, to + 1e-6);
  const count = Math.max(0, end - first);
  const perWave = (count * period) / Math.max(to - from, period);
  const group = count > MOST_SAMPLES ? Math.max(1, Math.min(Math.floor(perWave / 12), Math.ceil(count / MOST_SAMPLES))) : 1;
  const times = new Float64Array(Math.ceil(count / group));
  const values = new Float64Array(times.length);
  let n = 0;
  for (let i = first; i < end; i += group) {
    let t = 0;
    let v = 0;
    let m = 0;
    for (let j = i; j < Math.min(end, i + group); j++) {
      const value = channel.values[j];
      if (value - value !== 0) continue;
      t += timeAt(channel.sampling, j);
      v += value;
      m++;
    }
    if (m === 0) continue;
    times[n] = t / m;
    values[n++] = v / m;
  }
  return { times: times.subarray(0, n), values: values.subarray(0, n) };
}

export const samplesPerWave = ({ times }: Samples, frequency: number): number =>
  times.length / ((times[times.length - 1] - times[0]) * frequency);

/** Complex size of a wave block by block: value ~ re cos(2 pi f (t - t0)) - im sin(...) with the block's own mean left out. */
export type WaveBlocks = {
  readonly frequency: number;
  /** Middle of the first block, s: phases count from `origin`. */
  readonly origin: number;
  /** s between blocks. */
  readonly length: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Samples in each block. */
  readonly counts: Uint32Array;
};

/** Phases of a steady wave at instants, rad from an origin. In a loop, since what `map` asks for makes an object of every sample. */
export function steadyPhases(times: Float64Array, frequency: number, origin: number): Float64Array {
  const phases = new Float64Array(times.length);
  for (let i = 0; i < phases.length; i++) phases[i] = 2 * Math.PI * frequency * (times[i] - origin);
  return phases;
}

/**
 * Cuts samples into blocks of whole periods and takes the wave of each by least squares (constant, cosine, sine).
 * A block with less than half of its usual samples is left out (NaN).
 * @param phases of each sample, rad; those of a steady wave of this frequency where not given
 */
export function waveBlocks(
  { times, values }: Samples,
  frequency: number,
  wavesPerBlock: number,
  origin: number,
  blocks: number,
  phases: Float64Array = steadyPhases(times, frequency, origin),
): WaveBlocks {
  const length = wavesPerBlock / frequency;
  const re = new Float64Array(blocks).fill(Number.NaN);
  const im = new Float64Array(blocks).fill(Number.NaN);
  const counts = new Uint32Array(blocks);
  const usual = times.length / Math.max(1, (times[times.length - 1] - times[0]) / length);
  let i = 0;
  while (i < times.length && times[i] < origin) i++;
  for (let b = 0; b < blocks; b++) {
    const begin = i;
    while (i < times.length && times[i] < origin + (b + 1) * length) i++;
    counts[b] = i - begin;
    if (i - begin < Math.max(4, usual / 2)) continue;
    const wave = waveOf(phases, values, begin, i);
    re[b] = wave.re;
    im[b] = wave.im;
  }
  return { frequency, origin, length, re, im, counts };
}

function waveOf(phases: Float64Array, values: Float64Array, begin: number, end: number): { re: number; im: number } {
  const n = end - begin;
  let sum = 0;
  for (let i = begin; i < end; i++) sum += values[i];
  const mean = sum / n;
  let c = 0;
  let s = 0;
  let cc = 0;
  let ss = 0;
  let cs = 0;
  let yc = 0;
  let ys = 0;
  for (let i = begin; i < end; i++) {
    const cos = Math.cos(phases[i]);
    const sin = Math.sin(phases[i]);
    const y = values[i] - mean;
    c += cos;
    s += sin;
    cc += cos * cos;
    ss += sin * sin;
    cs += cos * sin;
    yc += y * cos;
    ys += y * sin;
  }
  cc -= (c * c) / n;
  ss -= (s * s) / n;
  cs -= (c * s) / n;
  const determinant = cc * ss - cs * cs;
  if (!(determinant > 1e-9 * n * n)) return { re: Number.NaN, im: Number.NaN };
  return { re: (ss * yc - cs * ys) / determinant, im: -(cc * ys - cs * yc) / determinant };
}
