import { powerOfTwoAtLeast } from "../../numerics/fast-fourier";
import { localBackground, logChance } from "../../numerics/local-background";
import { removeLine } from "../../numerics/spectrum-parts";
import type { EvenStretch } from "../../segments/even-stretch";
import { steadinessOf } from "./steadiness";
import { peakBin, standingOut } from "./window-peaks";
import { paddedPower, powerWithoutTone, screen } from "./window-power";

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

const WINDOW = 128; // samples: 4 to 32 waves
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
  const levels: Level[] = [{ values: stretch.values, from: stretch.from, step: stretch.step, finest: stretch.step }];
  for (let level = levels[0]; level.values.length > WINDOW / 2; level = levels[levels.length - 1]) {
    levels.push({ ...level, values: halved(level.values), from: level.from + level.step / 2, step: level.step * 2 });
  }
  const found: Found = { candidates: [], settled: [] };
  // Long windows first: what lies well inside one with the same wave adds nothing.
  for (const level of levels.reverse()) if (level.values.length >= LEAST_SAMPLES_PER_WAVE * LEAST_WAVES) searchLevel(level, limits, found);
  return found.candidates;
}

/** A stretch at some rate: values[i] at from + i * step; `finest` is the step it was logged at. */
type Level = { readonly values: EvenStretch["values"]; readonly from: number; readonly step: number; readonly finest: number };

/** Half the rate: weights 1 3 3 1 around the middle of each pair keep faster waves from folding in. Shape [n] -> [n/2]. */
function halved(values: EvenStretch["values"]): Float64Array {
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

function searchLevel(level: Level, limits: SearchLimits, found: Found): void {
  const n = level.values.length;
  if (n <= MOST_AS_A_WHOLE) searchWindows(level, n, limits, found);
  for (const window of level.step === level.finest ? [FINEST_WINDOW, WINDOW] : [WINDOW]) {
    if (n >= 1.5 * window) searchWindows(level, window, limits, found);
  }
}

/** Windows of one length, half over each other, the last one against the end. */
function searchWindows(level: Level, length: number, limits: SearchLimits, found: Found): void {
  const last = level.values.length - length;
  const count = last === 0 ? 1 : Math.ceil(last / (length / 2)) + 1;
  const part = new Float64Array(length);
  for (let w = 0; w < count; w++) {
    const start = count === 1 ? 0 : Math.round((w * last) / (count - 1));
    for (let i = 0; i < length; i++) part[i] = level.values[start + i];
    searchWindow(part, start, level, limits, found);
  }
}

function searchWindow(part: Float64Array, start: number, level: Level, limits: SearchLimits, found: Found): void {
  const n = part.length;
  removeLine(part);
  const leastPower = ((limits.leastAmplitude * n) / 2) ** 2;
  const leastRatio = Math.min(8, -limits.logLevel * 0.6);
  const size = powerOfTwoAtLeast(2 * n);
  if (tooQuiet(part, SCREENED * leastPower)) return;
  if (size === 2 * n && standingOut(screen(part), 2, SCREENED * leastPower, SCREENED * leastRatio).length === 0) return;
  const padded = paddedPower(part, size);
  const from = level.from + start * level.step;
  const to = from + (n - 1) * level.step;
  const peaks = standingOut(padded, size / n, leastPower, leastRatio).map((bin) => ({
    bin,
    height: padded.power[bin],
    period: size / peakBin(padded.power, bin),
  }));
  for (const peak of peaks) {
    const period = peak.period * level.step;
    if (found.settled.some((s) => from >= s.from && to <= s.to && samePeriod(s.period, period))) continue;
    const candidate = weigh(part, peak, size, limits.logLevel);
    if (candidate === null) continue;
    const damped = damping(period, level);
    settle(found.settled, from, to, period);
    found.candidates.push({
      ...candidate,
      from,
      to,
      period,
      amplitude: (2 * Math.sqrt(peak.height)) / n / damped,
      noiseDensity: (candidate.noiseDensity / (damped * damped)) * level.step,
    });
  }
}

/** Whether no bin can reach a power: one of n values has at most n times their sum of squares (Cauchy and Schwarz). */
function tooQuiet(part: Float64Array, leastPower: number): boolean {
  let squares = 0;
  for (let i = 0; i < part.length; i++) squares += part[i] * part[i];
  return part.length * squares < leastPower;
}

/** The quick look may read a peak lower than the padded one by this factor (scalloping of half bins). */
const SCREENED = 0.8;

type Settled = { from: number; to: number; readonly period: number };
/** What the longer windows found, and the time that lies well inside them: shorter windows there add nothing about the same wave. */
type Found = { readonly candidates: Candidate[]; readonly settled: Settled[] };

const samePeriod = (a: number, b: number): boolean => Math.abs(a / b - 1) < 0.1;

/** Adds the middle half of a window to the settled time; windows half over each other join without a break. */
function settle(settled: Settled[], from: number, to: number, period: number): void {
  const quarter = (to - from) / 4;
  const [begin, end] = [from + quarter, to - quarter];
  const last = settled[settled.length - 1];
  if (last !== undefined && samePeriod(last.period, period) && begin <= last.to + 0.05 * quarter && end >= last.from)
    last.to = Math.max(last.to, end);
  else settled.push({ from: begin, to: end, period });
}

type Peak = { readonly bin: number; readonly height: number; readonly period: number };

/** A peak against its background and in time; null where it does not hold. Period in samples, density per sample. */
function weigh(part: Float64Array, { bin, height, period }: Peak, size: number, logLevel: number) {
  const n = part.length;
  const background = localBackground(powerWithoutTone(part, period, size), bin, size / n);
  if (background === null) return null;
  const ratio = height / background.level;
  const chance = logChance(ratio, background.carriedBy);
  if (chance > logLevel) return null;
  const { regularity, medianWave, inPhase } = steadinessOf(part, n, period);
  if (!(regularity > 1 && medianWave > 0.5 && inPhase >= 0.7)) return null;
  return { ratio, noiseDensity: background.level / n, carriedBy: background.carriedBy, logChance: chance, regularity, cycles: n / period };
}
