import { fourierPlan, powerOfTwoAtLeast } from "../../numerics/fast-fourier";
import { localBackground, logChance, REACH, SHIELD } from "../../numerics/local-background";
import { removeLine } from "../../numerics/spectrum-parts";
import type { EvenStretch } from "../../segments/even-stretch";
import { steadinessOf } from "./steadiness";

/** A window of the record in which a tone stands out. Times in s of the record. */
export type Candidate = {
  readonly from: number;
  readonly to: number;
  readonly period: number;
  readonly amplitude: number;
  /** Power of the tone over its local background. */
  readonly ratio: number;
  /** Power of the noise around the tone's frequency, Pa^2 s (two-sided density), and how many independent bins it rests on. */
  readonly noiseDensity: number;
  readonly carriedBy: number;
  readonly logChance: number;
  readonly regularity: number;
  readonly cycles: number;
};

export type SearchLimits = {
  /** Pa; a smaller wave is not claimed. */
  readonly leastAmplitude: number;
  /** Logarithm of the chance below which noise is ruled out in one window: the level of the whole record shared among its windows. */
  readonly logLevel: number;
};

const WINDOW = 128;
/** At the finest level shorter windows are looked at besides, so that a brief episode of short waves fills one. */
const FINEST_WINDOW = 64;
/** A stretch (at some rate) no longer than this is also looked at as a whole. */
const MOST_AS_A_WHOLE = 512;
const LEAST_SAMPLES_PER_WAVE = 4;
const LEAST_WAVES = 4;

/**
 * Windows of a stretch in which a wave stands out of its local background and keeps on in time. Each period is seen at several window
 * lengths: the stretch is halved in rate level by level, and every level is searched with windows of one length for 4 to 32 waves.
 * A stretch hardly longer than a window is also looked at as a whole.
 * O(n log window).
 */
export function searchStretch(stretch: EvenStretch, limits: SearchLimits): Candidate[] {
  const found: Candidate[] = [];
  let level: Level = { values: stretch.values, from: stretch.from, step: stretch.step, finest: stretch.step };
  while (level.values.length >= LEAST_SAMPLES_PER_WAVE * LEAST_WAVES) {
    searchLevel(level, limits, found);
    if (level.values.length <= WINDOW / 2) break;
    level = { ...level, values: halved(level.values), from: level.from + level.step / 2, step: level.step * 2 };
  }
  return found;
}

/** A stretch at some rate: values[i] at from + i * step; `finest` is the step it was logged at. */
type Level = { readonly values: Float64Array; readonly from: number; readonly step: number; readonly finest: number };

/** Half the rate: weights 1 3 3 1 around the middle of each pair keep faster waves from folding in. Shape [n] -> [n/2]. */
function halved(values: Float64Array): Float64Array {
  const n = values.length;
  const out = new Float64Array(n >> 1);
  for (let i = 0; i < out.length; i++) {
    const m = 2 * i;
    const a = values[m > 0 ? m - 1 : 0];
    const d = values[m + 2 < n ? m + 2 : n - 1];
    out[i] = (a + 3 * values[m] + 3 * values[m + 1] + d) / 8;
  }
  return out;
}

/** How much halving the rate has damped a wave: cos^3 of each step's half turn, multiplied out. */
function damping(period: number, { step, finest }: Level): number {
  const turn = (Math.PI * step) / period;
  const halvings = step / finest;
  return (Math.sin(turn) / (halvings * Math.sin(turn / halvings))) ** 3;
}

function searchLevel(level: Level, limits: SearchLimits, found: Candidate[]): void {
  const n = level.values.length;
  if (n <= MOST_AS_A_WHOLE) searchWindows(level, n, limits, found);
  for (const window of level.step === level.finest ? [FINEST_WINDOW, WINDOW] : [WINDOW]) {
    if (n >= 1.5 * window) searchWindows(level, window, limits, found);
  }
}

/** Windows of one length, half over each other, the last one against the end. */
function searchWindows(level: Level, length: number, limits: SearchLimits, found: Candidate[]): void {
  const last = level.values.length - length;
  const count = last === 0 ? 1 : Math.ceil(last / (length / 2)) + 1;
  const part = new Float64Array(length);
  for (let w = 0; w < count; w++) {
    const start = count === 1 ? 0 : Math.round((w * last) / (count - 1));
    part.set(level.values.subarray(start, start + length));
    searchWindow(part, start, level, limits, found);
  }
}

/** Power of a zero-padded window in bins of 1/size, 0 .. size/2, and its running sums; the arrays are used again by the next window. */
type PaddedPower = { readonly power: Float64Array; readonly sums: Float64Array };
const paddedPowers = new Map<number, PaddedPower>();

function paddedPower(part: Float64Array, size: number): PaddedPower {
  let padded = paddedPowers.get(size);
  if (padded === undefined) {
    padded = { power: new Float64Array(size / 2 + 1), sums: new Float64Array(size / 2 + 2) };
    paddedPowers.set(size, padded);
  }
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

function searchWindow(part: Float64Array, start: number, level: Level, limits: SearchLimits, found: Candidate[]): void {
  const n = part.length;
  removeLine(part);
  const size = powerOfTwoAtLeast(2 * n);
  const { power, sums } = paddedPower(part, size);
  const oversampling = size / n;
  const leastPower = ((limits.leastAmplitude * n) / 2) ** 2;
  const peaks = standingOut(power, sums, oversampling, leastPower, Math.min(8, -limits.logLevel * 0.6));
  for (const { bin, height, period } of peaks.map((k) => ({ bin: k, height: power[k], period: size / peakBin(power, k) }))) {
    const background = localBackground(powerWithoutTone(part, period, size), bin, oversampling);
    if (background === null) continue;
    const ratio = height / background.level;
    const chance = logChance(ratio, background.carriedBy);
    if (chance > limits.logLevel) continue;
    const { regularity, medianWave, inPhase } = steadinessOf(part, n, period);
    if (!(regularity > 1 && medianWave > 0.5 && inPhase >= 0.7)) continue;
    const damped = damping(period * level.step, level);
    const from = level.from + start * level.step;
    found.push({
      from,
      to: from + (n - 1) * level.step,
      period: period * level.step,
      amplitude: (2 * Math.sqrt(height)) / n / damped,
      ratio,
      noiseDensity: (background.level / n / (damped * damped)) * level.step,
      carriedBy: background.carriedBy,
      logChance: chance,
      regularity,
      cycles: n / period,
    });
  }
}

/**
 * Power of the window less its tone of least squares at a period: what a strong tone spills into its neighbours would else pass for background.
 * @returns shape [size/2 + 1]; the same array as the next call's
 */
function powerWithoutTone(part: Float64Array, period: number, size: number): Float64Array {
  const n = part.length;
  let [cc, cs, ss, yc, ys] = [0, 0, 0, 0, 0];
  const cosine = new Float64Array(n);
  const sine = new Float64Array(n);
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
    [c, s] = [c * turnC - s * turnS, s * turnC + c * turnS];
  }
  const determinant = cc * ss - cs * cs;
  const a = (ss * yc - cs * ys) / determinant;
  const b = (cc * ys - cs * yc) / determinant;
  return paddedPower(
    part.map((v, i) => v - a * cosine[i] - b * sine[i]),
    size,
  ).power;
}

/** Bins whose power stands out of the plain mean of their neighbours: at most two, the second no harmonic of the first. */
function standingOut(power: Float64Array, sums: Float64Array, oversampling: number, leastPower: number, leastRatio: number): number[] {
  const low = Math.ceil(LEAST_WAVES * oversampling);
  const high = Math.floor((power.length - 1) / 2);
  let best = 0;
  let second = 0;
  let bestRatio = leastRatio;
  let secondRatio = leastRatio;
  for (let k = low; k <= high; k++) {
    const p = power[k];
    if (p < leastPower || p < power[k - 1] || p < power[k + 1]) continue;
    const ratio = p / neighbourMean(sums, power.length, k, oversampling);
    if (ratio > bestRatio) {
      if (!related(best, k, oversampling)) {
        second = best;
        secondRatio = bestRatio;
      }
      best = k;
      bestRatio = ratio;
    } else if (ratio > secondRatio && !related(best, k, oversampling)) {
      second = k;
      secondRatio = ratio;
    }
  }
  return [best, second].filter((k) => k > 0);
}

/** One bin near another, its harmonic or its part. */
function related(a: number, b: number, oversampling: number): boolean {
  if (a === 0) return false;
  const [low, high] = a < b ? [a, b] : [b, a];
  const order = Math.round(high / low);
  return Math.abs(high - order * low) <= SHIELD * oversampling * order && order <= 5;
}

/** Mean power from k / REACH to k * REACH without the tone and its second harmonic. O(1). */
function neighbourMean(sums: Float64Array, bins: number, k: number, oversampling: number): number {
  const shield = Math.floor(SHIELD * oversampling);
  const low = Math.max(shield, Math.ceil(k / REACH));
  const high = Math.min(bins - 1, Math.floor(k * REACH));
  let sum = sums[high + 1] - sums[low];
  let count = high + 1 - low;
  for (const centre of [k, 2 * k]) {
    const a = Math.max(low, centre - shield);
    const b = Math.min(high, centre + shield);
    if (b < a) continue;
    sum -= sums[b + 1] - sums[a];
    count -= b + 1 - a;
  }
  return count > 0 ? sum / count + Number.MIN_VALUE : Number.POSITIVE_INFINITY;
}

/** Place of a peak between bins: parabola through the logarithm of its neighbours. */
function peakBin(power: Float64Array, k: number): number {
  const a = Math.log(power[k - 1] + Number.MIN_VALUE);
  const b = Math.log(power[k] + Number.MIN_VALUE);
  const c = Math.log(power[k + 1] + Number.MIN_VALUE);
  const bend = a - 2 * b + c;
  return bend < 0 ? k + (0.5 * (a - c)) / bend : k;
}
