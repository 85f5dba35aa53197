import { varianceInflation } from "./autocorrelation";
import { normalQuantile, studentQuantile } from "./distributions";
import { fourierPlan, powerOfTwoAtLeast } from "./fast-fourier";
import { localBackground, logChance } from "./local-background";
import { median, NORMAL_PER_MAD, type Numbers, quantileInPlace } from "./order-statistics";
import { theilSen } from "./theil-sen";
import { fitTone } from "./tone-fit";

export type SlowTrend = {
  /** Slope times length, with its 95 % interval. */
  readonly change: number;
  readonly low: number;
  readonly high: number;
  /** Period of a wave that was taken off first, in units of the times; null where there was none. */
  readonly wavePeriod: number | null;
};

/** Pairs grow with the square: a trend needs no more points than this. */
const MOST_POINTS = 128;
const LEAST_POINTS = 12;

/**
 * How far a column moved from end to end: Theil-Sen slope over block medians (spikes do not move it) after a standing wave is taken off,
 * its interval widened for the residuals' memory with the bias of that memory corrected.
 * @param times shape [n], s, rising   @param values shape [n]; missing left out
 * @returns null with fewer than twelve blocks
 * Source: Sen 1968; widening Bayley & Hammersley 1946, bias Kendall 1954. Coverage measured in tests: see slow-trend.test.ts.
 */
export function slowTrend(times: Float64Array, values: Numbers): SlowTrend | null {
  const blocks = blockMedians(times, values);
  if (blocks.times.length < LEAST_POINTS) return null;
  const first = theilSen(blocks.times, blocks.values);
  if (first === null) return null;
  const wavePeriod = takeWaveOff(blocks, first.slope);
  const line = wavePeriod === null ? first : theilSen(blocks.times, blocks.values);
  if (line === null) return null;
  const n = blocks.times.length;
  const inflation = varianceInflation(memoryOf(blocks.values.map((v, i) => v - line.intercept - line.slope * blocks.times[i])), n, "line");
  const free = Math.max(3, (n - 2) / inflation);
  const widen = Math.sqrt(inflation) * (studentQuantile(0.975, free) / normalQuantile(0.975));
  const length = times[times.length - 1] - times[0];
  const change = line.slope * length;
  return {
    change,
    low: change - (line.slope - line.low) * length * widen,
    high: change + (line.high - line.slope) * length * widen,
    wavePeriod,
  };
}

type Blocks = { readonly times: Float64Array; readonly values: Float64Array };

function blockMedians(times: Float64Array, values: Numbers): Blocks {
  const n = times.length;
  const size = Math.max(1, Math.ceil(n / MOST_POINTS));
  const count = Math.floor(n / size);
  const blockTimes = new Float64Array(count);
  const blockValues = new Float64Array(count);
  const buffer = new Float64Array(size);
  let kept = 0;
  for (let b = 0; b < count; b++) {
    let m = 0;
    let t = 0;
    for (let i = b * size; i < (b + 1) * size; i++) {
      if (!Number.isFinite(values[i])) continue;
      buffer[m++] = values[i];
      t += times[i];
    }
    if (m === 0) continue;
    blockTimes[kept] = t / m;
    blockValues[kept++] = quantileInPlace(buffer.subarray(0, m), 0.5);
  }
  return { times: blockTimes.subarray(0, kept), values: blockValues.subarray(0, kept) };
}

/** Chance below which a wave is real enough to be taken off. */
const WAVE_LOG_CHANCE = Math.log(1e-5);

/** Takes the strongest wave off the block values in place where it stands out of its local background; its period, or null. */
function takeWaveOff({ times, values }: Blocks, slope: number): number | null {
  const n = values.length;
  const level = median(values.map((v, i) => v - slope * times[i]));
  const rest = tamed(values.map((v, i) => v - slope * times[i] - level));
  const size = powerOfTwoAtLeast(2 * n);
  const bins = fourierPlan(size).forwardReal(rest);
  const power = Float64Array.from({ length: size / 2 + 1 }, (_, k) => bins[2 * k] ** 2 + bins[2 * k + 1] ** 2);
  let k = Math.ceil((4 * size) / n);
  for (let j = k; j < size / 2 - 1; j++) if (power[j] > power[k]) k = j;
  const background = localBackground(power, k, size / n);
  if (background === null || logChance(power[k] / background.level, background.carriedBy) > WAVE_LOG_CHANCE) return null;
  const step = (times[n - 1] - times[0]) / (n - 1);
  const tone = fitTone(times, rest, k / (size * step), 1 / (n * step), "line");
  if (tone === null) return null;
  const turn = 2 * Math.PI * tone.frequency;
  for (let i = 0; i < n; i++) {
    const u = times[i] - tone.centre;
    values[i] -= tone.cosine * Math.cos(turn * u) + tone.sine * Math.sin(turn * u);
  }
  return 1 / tone.frequency;
}

/** Correlation of neighbours without the spikes: pairs that one touches are left out. */
function memoryOf(rest: Float64Array): number {
  const limit = 4 * NORMAL_PER_MAD * median(rest.map(Math.abs));
  let products = 0;
  let pairs = 0;
  let squares = 0;
  let count = 0;
  for (let i = 0; i < rest.length; i++) {
    if (Math.abs(rest[i]) > limit) continue;
    squares += rest[i] * rest[i];
    count++;
    if (i + 1 < rest.length && Math.abs(rest[i + 1]) <= limit) {
      products += rest[i] * rest[i + 1];
      pairs++;
    }
  }
  return products / pairs / (squares / count);
}

/** Values cut off at four robust spreads, so that a spike does not hide the memory of the rest. */
function tamed(values: Float64Array): Float64Array {
  const limit = 4 * NORMAL_PER_MAD * median(values.map(Math.abs));
  return limit > 0 ? values.map((v) => Math.min(limit, Math.max(-limit, v))) : values;
}
