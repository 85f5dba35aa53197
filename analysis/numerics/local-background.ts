/** What the spectrum would be at a bin if there were no tone: level there, and how many independent bins it rests on. */
export type Background = { readonly level: number; readonly carriedBy: number };

/** Neighbours that count: from f / REACH to f * REACH. */
export const REACH = 2.2;
/** Bins (in units of 1/length) on both sides of the tone and of its second harmonic that are left out. */
export const SHIELD = 1.5;

/** Power and log frequency of the neighbours, used again by the next call. */
let neighbours = { powers: new Float64Array(0), places: new Float64Array(0) };

/**
 * Local background of a periodogram: level and slope against log frequency fitted to the neighbours of bin k by maximum likelihood for
 * exponential values (a gamma model with log link). Any red noise is nearly a power law over two octaves, so that the colour of the noise
 * need not be known; a white-noise level would call most correlated noise an oscillation.
 * @param power shape [m], bins of 1 / (oversampling * length)
 * Source: red-noise and local backgrounds, Mann & Lees 1996; generalised linear models, McCullagh & Nelder 1989.
 * @returns null with fewer than four independent neighbours
 */
export function localBackground(power: Float64Array, k: number, oversampling: number): Background | null {
  const low = Math.max(Math.ceil(SHIELD * oversampling), Math.ceil(k / REACH));
  const high = Math.min(power.length - 1, Math.floor(k * REACH));
  const room = Math.max(0, high + 1 - low);
  if (neighbours.powers.length < room) neighbours = { powers: new Float64Array(room), places: new Float64Array(room) };
  const { powers, places } = neighbours;
  let count = 0;
  let sum = 0;
  for (let j = low; j <= high; j++) {
    if (shielded(j, k, oversampling)) continue;
    sum += power[j];
    powers[count] = power[j];
    places[count++] = Math.log(j / k);
  }
  if (count < 4 * oversampling) return null;
  let level = Math.log(sum / count + Number.MIN_VALUE);
  let slope = 0;
  let carriedBy = 0;
  for (let round = 0; round < 12; round++) {
    const step = scoringStep(powers, places, count, level, slope);
    level += clamp(step.level);
    slope = Math.min(1, Math.max(-4, slope + clamp(step.slope)));
    carriedBy = step.carriedBy / oversampling;
    if (Math.abs(step.level) + Math.abs(step.slope) < 1e-4) break;
  }
  return { level: Math.exp(level), carriedBy };
}

const clamp = (step: number): number => Math.min(1, Math.max(-1, step));

export const shielded = (j: number, k: number, oversampling: number): boolean =>
  Math.abs(j - k) <= SHIELD * oversampling || Math.abs(j - 2 * k) <= SHIELD * oversampling;

/** One Fisher scoring step for log mean = level + slope * place (log of bin / k), and the information on the level at k. */
function scoringStep(powers: Float64Array, places: Float64Array, count: number, level: number, slope: number) {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let r0 = 0;
  let r1 = 0;
  for (let i = 0; i < count; i++) {
    const x = places[i];
    const rest = powers[i] / Math.exp(level + slope * x) - 1;
    s0 += 1;
    s1 += x;
    s2 += x * x;
    r0 += rest;
    r1 += rest * x;
  }
  const determinant = s0 * s2 - s1 * s1;
  return { level: (s2 * r0 - s1 * r1) / determinant, slope: (s0 * r1 - s1 * r0) / determinant, carriedBy: determinant / s2 };
}

/** Logarithm of the chance that noise alone stands `ratio` times over a background carried by so many bins: F with 2 and 2n degrees of freedom. */
export const logChance = (ratio: number, carriedBy: number): number => -carriedBy * Math.log1p(ratio / carriedBy);
