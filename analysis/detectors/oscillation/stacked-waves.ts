import { mean, variance } from "../../numerics/moments";
import { meanAround } from "./steadiness";
import type { Samples } from "./waves";

/** Waves laid over each other: of each sample the place from the crest (or trough) of its own wave, in waves, rising; its value; and its wave's number. */
export type Stack = {
  readonly places: Float64Array;
  /** Pa from the mean of the wave around it. */
  readonly values: Float64Array;
  readonly waves: Int32Array;
};

/** By how much waves differ in length from one to the next, waves squared, and of how many that is known. */
export type Lengths = { readonly variance: number; readonly count: number };

export type StackedWaves = { readonly crest: Stack; readonly trough: Stack; readonly lengths: Lengths };

/** Parts of a wave in which the mean wave is held. */
const PARTS = 64;
/** A crest is looked at over half a wave, and may lie up to so many parts from where the phase puts it. */
const REACH = 0.25;
const FARTHEST = 10;
const BINS = 2 * (REACH * PARTS + FARTHEST);
const ROUNDS = 2;
/** Of more samples only some pairs of waves are laid over each other: they show the usual one, and how lengths differ, as well. */
const MOST_SAMPLES = 1500;
/** Where noise places a crest no better than this, waves, it is left where the phase puts it: it would be moved to where noise makes it high. */
const WELL_PLACED = 0.015;
/** A wave with fewer of its samples, at an end or a hole, has no place of its own. */
const WHOLE = 0.75;
/** Standard deviations (chance 1 in 100) by which the moves must scatter more than by noise. */
const BY_CHANCE = 2.33;

/**
 * Lays the waves over each other at their crests and at their troughs. Where lengths vary from wave to wave no one phase has both in one place, and their mean is
 * rounded: each crest (trough) is moved to where it agrees best with the mean of all (Woody 1967), by the part of the moves that noise does not explain.
 * @param turns phase of each sample in waves; NaN where it has none   @param perWave samples
 */
export function stackWaves({ values }: Samples, turns: Float64Array, perWave: number): StackedWaves | null {
  const n = values.length;
  const around = meanAround(values, n, perWave);
  const y = new Float64Array(n);
  // Within half a wave of an end there is no whole wave to take the mean of.
  for (let i = 0; i < n; i++) y[i] = Math.min(i, n - 1 - i) + 0.5 < perWave / 2 ? Number.NaN : values[i] - around(i);
  const usual = usualWave(y, turns);
  if (usual === null) return null;
  const placeOf = (best: number) => (usual.indexOf(best) + 0.5) / PARTS;
  const crest = stackAt(y, turns, placeOf(Math.max(...usual)));
  const trough = stackAt(y, turns, placeOf(Math.min(...usual)));
  const lengths = crest.lengths.variance < trough.lengths.variance ? crest.lengths : trough.lengths;
  return { crest, trough, lengths };
}

/** Mean over each part of a wave and its two neighbours on either side; null where so much of it was never sampled. */
function usualWave(y: Float64Array, turns: Float64Array): Float64Array | null {
  const sums = new Float64Array(PARTS);
  const counts = new Float64Array(PARTS);
  for (let i = 0; i < y.length; i++) {
    const u = turns[i];
    if (u - u !== 0 || y[i] - y[i] !== 0) continue;
    const k = Math.min(PARTS - 1, Math.floor((u - Math.floor(u)) * PARTS));
    sums[k] += y[i];
    counts[k]++;
  }
  const near = (of: Float64Array, k: number) => [-2, -1, 0, 1, 2].reduce((sum, d) => sum + of[(k + d + PARTS) % PARTS], 0);
  const usual = sums.map((_, k) => near(sums, k) / near(counts, k));
  return usual.some(Number.isNaN) ? null : usual;
}

type Sample = { readonly place: number; readonly value: number; readonly wave: number };

function stackAt(y: Float64Array, turns: Float64Array, at: number): Stack & { readonly lengths: Lengths } {
  const near: Sample[] = [];
  const every = Math.ceil(y.length / MOST_SAMPLES);
  for (let i = 0; i < y.length; i++) {
    const u = turns[i] - at;
    const wave = Math.round(u);
    if (Math.floor(wave / 2) % every === 0 && Math.abs(u - wave) <= REACH + FARTHEST / PARTS && y[i] - y[i] === 0)
      near.push({ place: u - wave, value: y[i], wave });
  }
  const { moves, lengths } = movesOf(near);
  const kept: Sample[] = [];
  for (const { place, value, wave } of near) {
    const moved = place - (moves.get(wave) ?? 0);
    if (Math.abs(moved) <= REACH) kept.push({ place: moved, value, wave });
  }
  const order = byPlace(kept);
  return {
    places: Float64Array.from(order, (i) => kept[i].place),
    values: Float64Array.from(order, (i) => kept[i].value),
    waves: Int32Array.from(order, (i) => kept[i].wave),
    lengths,
  };
}

/** Indexes by rising place. Place and index in one number, since numbers sort far quicker than objects: places to a billionth, and up to a million of them. */
function byPlace(samples: readonly Sample[]): Float64Array {
  const keys = Float64Array.from(samples, ({ place }, i) => Math.floor((place + 0.5) * 1e9) * 2 ** 20 + i).sort();
  return keys.map((key) => key % 2 ** 20);
}

/** How far each wave's crest lies from where the phase puts it, waves. Samples wave by wave. */
function movesOf(samples: readonly Sample[]): { readonly moves: Map<number, number>; readonly lengths: Lengths } {
  const moves = new Map<number, number>();
  let lengths: Lengths = { variance: 0, count: 0 };
  const parts: Sample[][] = [];
  for (let begin = 0, end = 0; begin < samples.length; begin = end) {
    while (end < samples.length && samples[end].wave === samples[begin].wave) end++;
    parts.push(samples.slice(begin, end));
  }
  const whole = WHOLE * parts.reduce((most, part) => Math.max(most, part.length), 0);
  for (let round = 0; round < ROUNDS; round++) {
    const curve = meanCurve(samples, moves);
    const found: (Move & { readonly wave: number })[] = [];
    for (const part of parts) {
      const move = part.length < whole ? null : moveOf(part, curve);
      if (move !== null) found.push({ ...move, wave: part[0].wave });
    }
    const centre = mean(found.map(({ by }) => by));
    const spread = variance(found.map(({ by }) => by));
    const noise = mean(found.map(({ noise }) => noise));
    const byNoise = noise + 1 / (12 * PARTS ** 2); // and by the parts in which the mean wave is held
    const scatters = spread > byNoise * (1 + BY_CHANCE * Math.sqrt(2 / found.length)) && noise < WELL_PLACED ** 2;
    const real = scatters ? 1 - noise / spread : 0;
    if (noise < WELL_PLACED ** 2) lengths = lengthsOf(found, byNoise);
    for (const { wave, by } of found) moves.set(wave, centre + real * (by - centre));
    if (!scatters) break;
  }
  return { moves, lengths };
}

/** Variance of the lengths from one wave to the next, waves squared, by more than the noise of two places explains; 0 where chance may have made it. */
function lengthsOf(moves: readonly { readonly wave: number; readonly by: number }[], byNoise: number): Lengths {
  const steps = moves.flatMap(({ wave, by }, i) => (i > 0 && wave - moves[i - 1].wave === 1 ? [by - moves[i - 1].by] : []));
  if (steps.length < 3) return { variance: 0, count: steps.length };
  const seen = variance(steps);
  const isReal = seen > 2 * byNoise * (1 + BY_CHANCE * Math.sqrt(3 / steps.length)); // neighbouring steps share a place: 3 for 2
  return { variance: isReal ? seen - 2 * byNoise : 0, count: steps.length };
}

/** Mean of the moved samples as a curve of the place, straight between the middles of its parts. */
function meanCurve(samples: readonly Sample[], moves: ReadonlyMap<number, number>): (place: number) => number {
  const sums = new Float64Array(BINS);
  const counts = new Float64Array(BINS);
  for (const { place, value, wave } of samples) {
    const k = Math.floor((place - (moves.get(wave) ?? 0)) * PARTS + BINS / 2);
    if (k < 0 || k >= BINS) continue;
    sums[k] += value;
    counts[k]++;
  }
  const means = sums.map((sum, k) => sum / counts[k]);
  return (place) => {
    const x = place * PARTS + BINS / 2 - 0.5;
    const k = Math.floor(x);
    return means[k] + (x - k) * (means[k + 1] - means[k]);
  };
}

/** Where a wave agrees best with the mean, whatever its level; and the variance that noise gives the place (residual over the sum of squared slopes). */
type Move = { readonly by: number; readonly noise: number };

function moveOf(wave: readonly Sample[], curve: (place: number) => number): Move | null {
  const step = 1 / PARTS;
  const misfit = (by: number) => varianceAround(wave, curve, by);
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  const look = (by: number): number => {
    const at = misfit(by);
    if (at < least) {
      best = by;
      least = at;
    }
    return at;
  };
  for (let k = -FARTHEST; k <= FARTHEST; k += 2) look(k * step);
  if (least === Number.POSITIVE_INFINITY) return null;
  const middle = best;
  look(middle - step);
  look(middle + step);
  const [a, b] = [misfit(best - step), misfit(best + step)];
  const bend = a - 2 * least + b;
  const off = bend > 0 && bend < Number.POSITIVE_INFINITY ? Math.max(-1, Math.min(1, (0.5 * (a - b)) / bend)) : 0;
  let slopes = 0;
  for (const { place } of wave) {
    const slope = (curve(place - best + step) - curve(place - best - step)) / (2 * step);
    if (slope - slope === 0) slopes += slope * slope;
  }
  return { by: best + step * off, noise: least / Math.max(slopes, Number.MIN_VALUE) };
}

/** Variance of a wave around the mean curve at a move; infinite with fewer than four samples. */
function varianceAround(wave: readonly Sample[], curve: (place: number) => number, by: number): number {
  let n = 0;
  let sum = 0;
  let squares = 0;
  for (const { place, value } of wave) {
    const rest = value - curve(place - by);
    if (Math.abs(place - by) > REACH || rest - rest !== 0) continue;
    n++;
    sum += rest;
    squares += rest * rest;
  }
  return n < 4 ? Number.POSITIVE_INFINITY : (squares - (sum * sum) / n) / (n - 1);
}
