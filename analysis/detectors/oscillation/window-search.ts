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
  readonly ratio: number;
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

const WINDOW = 256;
/** At the finest level short waves are also looked for in short windows, so that a brief episode fills one. */
const SHORT_WINDOW = 64;
const LEAST_SAMPLES_PER_WAVE = 4;
const LEAST_WAVES = 4;

/**
 * Windows of a stretch in which a wave stands out of its local background and keeps on in time. Each period is seen at several window
 * lengths: the stretch is halved in rate level by level, and every level is searched with windows of one length for 4 to 64 waves.
 * O(n log window).
 */
export function searchStretch(stretch: EvenStretch, limits: SearchLimits): Candidate[] {
  const found: Candidate[] = [];
  let values = stretch.values;
  let step = stretch.step;
  let from = stretch.from as number;
  searchLevel(values, SHORT_WINDOW, from, step, limits, found);
  while (values.length >= LEAST_SAMPLES_PER_WAVE * LEAST_WAVES) {
    searchLevel(values, WINDOW, from, step, limits, found);
    if (values.length <= WINDOW / 2) break;
    values = halved(values);
    from += step / 2;
    step *= 2;
  }
  return found;
}

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

function searchLevel(values: Float64Array, window: number, from: number, step: number, limits: SearchLimits, found: Candidate[]): void {
  const n = values.length;
  if (window < WINDOW && n < window * 1.5) return;
  const length = n < window * 1.5 ? n : window;
  const last = n - length;
  const count = last === 0 ? 1 : Math.ceil(last / (length / 2)) + 1;
  const part = new Float64Array(length);
  for (let w = 0; w < count; w++) {
    const start = count === 1 ? 0 : Math.round((w * last) / (count - 1));
    part.set(values.subarray(start, start + length));
    searchWindow(part, from + start * step, step, limits, found);
  }
}

/** Power of the zero-padded window, bins of 1/size, 0 .. size/2. */
function paddedPower(part: Float64Array, size: number): Float64Array {
  const bins = fourierPlan(size).forwardReal(part);
  const power = new Float64Array(size / 2 + 1);
  for (let k = 0; k < power.length; k++) power[k] = bins[2 * k] * bins[2 * k] + bins[2 * k + 1] * bins[2 * k + 1];
  return power;
}

function searchWindow(part: Float64Array, from: number, step: number, limits: SearchLimits, found: Candidate[]): void {
  const n = part.length;
  removeLine(part);
  const size = powerOfTwoAtLeast(2 * n);
  const power = paddedPower(part, size);
  const oversampling = size / n;
  const leastPower = ((limits.leastAmplitude * n) / 2) ** 2;
  for (const k of standingOut(power, oversampling, leastPower, Math.min(8, -limits.logLevel * 0.6))) {
    const background = localBackground(power, k, oversampling);
    if (background === null) continue;
    const ratio = power[k] / background.level;
    const chance = logChance(ratio, background.carriedBy);
    if (chance > limits.logLevel) continue;
    const period = size / peakBin(power, k);
    const { regularity, medianWave, inPhase } = steadinessOf(part, n, period);
    if (!(regularity > 1 && medianWave > 0.5 && inPhase >= 0.7)) continue;
    found.push({
      from,
      to: from + (n - 1) * step,
      period: period * step,
      amplitude: (2 * Math.sqrt(power[k])) / n,
      ratio,
      logChance: chance,
      regularity,
      cycles: n / period,
    });
  }
}

/** Bins whose power stands out of the plain mean of their neighbours: at most two, the second no harmonic of the first. */
function standingOut(power: Float64Array, oversampling: number, leastPower: number, leastRatio: number): number[] {
  const low = Math.ceil(LEAST_WAVES * oversampling);
  const high = Math.floor((power.length - 1) / 2);
  const sums = cumulative(power);
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

function cumulative(power: Float64Array): Float64Array {
  const sums = new Float64Array(power.length + 1);
  for (let k = 0; k < power.length; k++) sums[k + 1] = sums[k] + power[k];
  return sums;
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
