import { powerOf, varianceInflation } from "./autocorrelation";
import { normalQuantile, studentQuantile } from "./distributions";
import { fourierPlan, powerOfTwoAtLeast } from "./fast-fourier";
import { localBackground, logChance } from "./local-background";
import { mean } from "./moments";
import { copyFinite, median, NORMAL_PER_MAD, type Numbers, quantileInPlace, robustSpread } from "./order-statistics";
import { seededRandom } from "./random";
import { type TheilSenLine, theilSen } from "./theil-sen";
import { fitTone } from "./tone-fit";
import { valueStep } from "./value-step";

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
/** With noise above half a step the mean of stepped values is as good as unbiased (dither). Widrow & Kollar, Quantization Noise, 2008. */
const SHARP = Math.hypot(0.5, 1 / Math.sqrt(12)); // of the blurred values, in steps
/** 95 % reach of the difference of two errors, each even over one step: 1 - sqrt(0.05). */
const STEP_REACH = 0.776;
/** Correlation of neighbouring blocks that noise is reckoned to have at most. */
const LONGEST_MEMORY = 0.93;

/**
 * How far a column moved from end to end: Theil-Sen slope over block means without outliers (spikes do not move it) after a standing wave is taken off,
 * its interval widened for the residuals' memory with the bias of that memory corrected (as far as their fast scatter allows: a lasting bend is no noise), and for the steps of the values where noise does not
 * blur them.
 * @param times shape [n], s, rising   @param values shape [n]; missing left out
 * @param step of the values where they are stepped: known better from a whole record than from a part of it
 * @returns null with fewer than twelve blocks
 * Source: Sen 1968; widening Bayley & Hammersley 1946, bias Kendall 1954. Coverage measured in tests: see slow-trend.test.ts.
 */
export function slowTrend(times: Float64Array, values: Numbers, step = valueStep(values)): SlowTrend | null {
  const blocks = blockMeans(times, step > 0 ? blurred(values, step) : values, step);
  if (blocks.times.length < LEAST_POINTS) return null;
  const first = theilSen(blocks.times, blocks.values);
  if (first === null) return null;
  const wavePeriod = takeWaveOff(blocks, first.slope);
  const line = wavePeriod === null ? first : theilSen(blocks.times, blocks.values);
  if (line === null) return null;
  const rest = blocks.values.map((v, i) => v - line.intercept - line.slope * blocks.times[i]);
  const reach = [reachOfPairs(line, rest), reachOfScatter(blocks.times, rest)].reduce((a, b) => (widthOf(b) < widthOf(a) ? b : a));
  const length = times[times.length - 1] - times[0];
  const change = line.slope * length;
  const byStep = STEP_REACH * blocks.sharpStep;
  return {
    change,
    low: change - Math.hypot(reach.below * length, byStep),
    high: change + Math.hypot(reach.above * length, byStep),
    wavePeriod,
  };
}

/** How far the slope may be out, below and above. */
type Reach = { readonly below: number; readonly above: number };

/** The limits of the pairs of slopes, widened for the memory that the residuals show. */
function reachOfPairs(line: TheilSenLine, rest: Float64Array): Reach {
  const inflation = varianceInflation(memoryOf(rest), rest.length, "line");
  const free = Math.max(3, (rest.length - 2) / inflation);
  const widen = Math.sqrt(inflation) * (studentQuantile(0.975, free) / normalQuantile(0.975));
  return { below: (line.slope - line.low) * widen, above: (line.high - line.slope) * widen };
}

/**
 * What the scatter from block to block allows. Residuals of a course that settles or turns look like noise of endless memory; but noise whose neighbours
 * correlate by r has the variance of its differences over 2 (1 - r), so that noise of the longest memory reckoned with cannot be larger than its
 * fast scatter says. Beside it stands how far least squares and the median of pairs differ about the slope of a bent course.
 */
function reachOfScatter(times: Float64Array, rest: Float64Array): Reach {
  const n = rest.length;
  const centre = mean(times);
  let squares = 0;
  let product = 0;
  for (let i = 0; i < n; i++) {
    squares += (times[i] - centre) ** 2;
    product += (times[i] - centre) * rest[i];
  }
  const steps = robustSpread(differences(rest), 0);
  const variance = (steps * steps) / (2 * (1 - LONGEST_MEMORY));
  const sd = Math.sqrt((variance * (1 + LONGEST_MEMORY)) / (1 - LONGEST_MEMORY) / squares);
  const reach = Math.hypot(normalQuantile(0.975) * sd, product / squares);
  return { below: reach, above: reach };
}

const widthOf = ({ below, above }: Reach): number => below + above;

type Blocks = {
  readonly times: Float64Array;
  readonly values: Float64Array;
  /** Step of the values where noise leaves it sharp, else 0. */
  readonly sharpStep: number;
};

/** Means of blocks without their outliers: a median would snap to the steps of quantised values. */
function blockMeans(times: Float64Array, values: Numbers, step: number): Blocks {
  const n = times.length;
  const size = Math.max(1, Math.ceil(n / MOST_POINTS));
  const count = Math.floor(n / size);
  const medians = new Float64Array(count);
  const block = new Float64Array(size);
  for (let b = 0; b < count; b++) medians[b] = quantileInPlace(block, 0.5, copyFinite(values, b * size, (b + 1) * size, block));
  const spread = size < 3 ? robustSpread(differences(medians)) / Math.SQRT2 : spreadWithin(values, medians, size);
  const allowed = size < 3 ? Number.POSITIVE_INFINITY : 4 * Math.max(spread, step);
  const blockTimes = new Float64Array(count);
  const blockValues = new Float64Array(count);
  let kept = 0;
  for (let b = 0; b < count; b++) {
    let m = 0;
    let t = 0;
    let v = 0;
    for (let i = b * size; i < (b + 1) * size; i++) {
      if (!(Math.abs(values[i] - medians[b]) <= allowed)) continue;
      m++;
      t += times[i];
      v += values[i];
    }
    if (m === 0) continue;
    blockTimes[kept] = t / m;
    blockValues[kept++] = v / m;
  }
  return { times: blockTimes.subarray(0, kept), values: blockValues.subarray(0, kept), sharpStep: spread < SHARP * step ? step : 0 };
}

/**
 * Stepped values spread evenly over their step by seeded chance: most pairs of stepped values have slope 0 exactly, which would leave the median
 * of slopes and its limits at 0 whatever the trend.
 */
function blurred(values: Numbers, step: number): Float64Array {
  const chance = seededRandom(1);
  const spread = new Float64Array(values.length);
  for (let i = 0; i < spread.length; i++) spread[i] = values[i] + step * (chance.next() - 0.5);
  return spread;
}

/** Robust spread of values about the median of their block. */
function spreadWithin(values: Numbers, medians: Float64Array, size: number): number {
  const apart = new Float64Array(medians.length * size);
  for (let b = 0, i = 0; b < medians.length; b++) for (let k = 0; k < size; k++, i++) apart[i] = values[i] - medians[b];
  return robustSpread(apart, 0);
}

function differences(values: Float64Array): Float64Array {
  const steps = new Float64Array(Math.max(0, values.length - 1));
  for (let i = 0; i < steps.length; i++) steps[i] = values[i + 1] - values[i];
  return steps;
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
  const power = powerOf(bins);
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
