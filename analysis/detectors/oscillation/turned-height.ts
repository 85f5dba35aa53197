import { medianInterval } from "../../numerics/median-interval";
import { median, NORMAL_PER_MAD } from "../../numerics/order-statistics";
import { seededRandom } from "../../numerics/random";
import { runningMean } from "../../numerics/running-mean";
import { type Turn, turningPoints } from "../../segments/turning-points";

/** Height of the usual wave from its own turns, with its 95 % interval, Pa. */
export type TurnedHeight = { readonly value: number; readonly low: number; readonly high: number; readonly hidden: number };

/** A crest is looked at in parts of a wave no finer than this, where noise asks for it. */
const PARTS = 24;
const LEAST_WAVES = 5;
/** A turn stands out by this share of the height looked for. */
const STANDS_OUT = 0.5;
/** Waves of lengths about the usual one. */
const ALIKE = { least: 0.6, most: 1.6 };
/** At least this part of the waves must be found so. */
const MOST_OF_THEM = 0.5;
/** Noise over height under which nothing is averaged, and up to which the highest sample still tells the crest. */
const QUIET = 0.01;
const NOISY = 0.04;
/** White noise has 1 + 9 + 9 + 1 times its variance in third differences. */
const THIRD_DIFFERENCE = Math.sqrt(20);

/**
 * Median over the waves of the mean of two crests less the trough between them: for waves that differ from each other, so that they cannot be laid over each other. What noise adds to highest and
 * lowest samples is seen by adding as much again and taken off (simulation and extrapolation, Cook & Stefanski 1994); half of it stays in the interval. Upward it holds what
 * the flanks, drawn on to where they meet, have beyond the highest sample.
 * @param rough height of the wave's harmonics, Pa   @returns null with too few waves or too much noise
 */
export function turnedHeight(values: Float64Array, perWave: number, rough: number): TurnedHeight | null {
  const noise = sampleNoise(values, Math.max(1, Math.round(perWave / 16)));
  if (!(noise <= NOISY * rough)) return null;
  let half = 0;
  while (2 * half + 3 <= perWave / PARTS && noise > QUIET * rough * Math.sqrt(2 * half + 1)) half++;
  const look = (of: Float64Array) => heightsOf(runningMean(of, half), perWave, rough, 2 * half + 1);
  const seen = look(values);
  if (seen === null || seen.heights.length < (MOST_OF_THEM * values.length) / perWave) return null;
  const chance = seededRandom(1);
  const noisier = look(values.map((v) => v + noise * chance.normal()));
  const usual = medianInterval(seen.heights);
  // Twice the variance: the excess, about as large as the noise itself, grows by the root of two.
  const more = noisier === null ? 0 : Math.max(0, median(noisier.heights) - usual.value) / (Math.SQRT2 - 1);
  const byNoise = Math.min(more, 4 * noise);
  return {
    value: usual.value - byNoise,
    low: Math.max(0, usual.low - 1.5 * byNoise),
    high: usual.high - 0.5 * byNoise + seen.between,
    hidden: seen.between,
  };
}

/** Standard deviation of the noise of one sample, from third differences at a lag over which the wave is nearly a parabola. */
export function sampleNoise(values: Float64Array, lag: number): number {
  const count = values.length - 3 * lag;
  if (count < 1) return Number.NaN;
  const sizes = new Float64Array(count);
  for (let i = 0; i < count; i++) sizes[i] = Math.abs(values[i + 3 * lag] - 3 * values[i + 2 * lag] + 3 * values[i + lag] - values[i]);
  return (NORMAL_PER_MAD * median(sizes)) / THIRD_DIFFERENCE;
}

function heightsOf(values: Float64Array, perWave: number, rough: number, step: number) {
  const turns = turningPoints(values, 0, values.length - 1, STANDS_OUT * rough);
  const tops = turns.map((turn) => topAt(values, turn, step));
  const heights: number[] = [];
  for (let k = 1; k + 1 < turns.length; k++) {
    const length = turns[k + 1].index - turns[k - 1].index;
    if (turns[k].kind === "low" && length > ALIKE.least * perWave && length < ALIKE.most * perWave)
      heights.push((tops[k - 1].at + tops[k + 1].at) / 2 - tops[k].at);
  }
  if (heights.length < LEAST_WAVES) return null;
  const between = (["high", "low"] as const).map((kind) => median(tops.filter((_, k) => turns[k].kind === kind).map((t) => t.beyond)));
  return { heights, between: between[0] + between[1] };
}

/** A turn between samples: the vertex of the parabola through it, and how much farther its flanks would meet. */
function topAt(v: Float64Array, { index: i, kind }: Turn, step: number): { readonly at: number; readonly beyond: number } {
  const sign = kind === "high" ? 1 : -1;
  const [a2, a, b, c, c2] = [-2, -1, 0, 1, 2].map((k) => sign * v[i + k * step]);
  const bend = a - 2 * b + c;
  const x = bend < 0 ? (0.5 * (a - c)) / bend : Number.NaN;
  const vertex = Math.abs(x) <= 1 ? b - 0.25 * (a - c) * x : b;
  const [rise, fall] = [a - a2, c - c2];
  const meet = (c - a + 2 * fall) / (rise + fall); // steps after the sample before the turn
  const corner = rise > 0 && fall > 0 && meet >= 0 && meet <= 2 ? a + meet * rise : vertex;
  return { at: sign * vertex, beyond: Math.max(0, corner - vertex) || 0 };
}
