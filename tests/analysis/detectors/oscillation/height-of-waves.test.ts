import { describe, expect, test } from "vitest";
import { stackedHeight } from "../../../../analysis/detectors/oscillation/stacked-height";
import { stackWaves } from "../../../../analysis/detectors/oscillation/stacked-waves";
import { sampleNoise, turnedHeight } from "../../../../analysis/detectors/oscillation/turned-height";
import { noiseOf, seededRandom } from "../../../builders/signals";

// Waves from 0 to 1 in closed form: their height is 1 by definition, whatever is sampled of them.
const triangle = (rise: number) => (x: number) => (x < rise ? x / rise : (1 - x) / (1 - rise));
const dip = (width: number) => (x: number) => (x < width ? Math.abs((2 * x) / width - 1) : 1);
const WAVES = {
  sine: (x: number) => (1 + Math.sin(2 * Math.PI * x)) / 2,
  triangle: triangle(0.5),
  sawtooth: triangle(0.25),
  dip: dip(0.2),
};

type Sampled = { readonly values: Float64Array; readonly turns: Float64Array };

/** `waves` of them, each longer or shorter by chance with the given spread; samples at instants, or means over the interval. */
function sampled(wave: (x: number) => number, perWave: number, noise: number, seed: number, spread = 0, means = 1, waves = 20): Sampled {
  const chance = seededRandom(seed);
  const count = Math.round(waves * perWave);
  const rough = noiseOf(count, chance);
  let phase = chance.next();
  let rate = (1 + spread * chance.normal()) / perWave;
  const turns = new Float64Array(count);
  const values = Float64Array.from(rough, (v, i) => {
    let sum = 0;
    for (let k = 0; k < means; k++) {
      sum += wave(phase - Math.floor(phase)) / means;
      turns[i] += phase / means;
      const before = Math.floor(phase);
      phase += rate / means;
      if (Math.floor(phase) > before) rate = Math.max(0.3, 1 + spread * chance.normal()) / perWave;
    }
    return sum + noise * v;
  });
  return { values, turns };
}

function stacked({ values, turns }: Sampled, perWave: number) {
  const stacks = stackWaves({ times: values.map((_, i) => i), values }, turns, perWave);
  return stacks === null ? null : stackedHeight(stacks, perWave);
}

const SEEDS = Array.from({ length: 20 }, (_, k) => 100 + 7 * k);
/** 92 % of 20, less two standard deviations of the binomial. */
const LEAST = 16;

const within = (h: { low: number; high: number } | null) => h !== null && h.low <= 1 && 1 <= h.high;

describe("waves laid over each other", () => {
  test.each(Object.keys(WAVES) as (keyof typeof WAVES)[])("a %s has its height in the interval, at many samplings and noises", (kind) => {
    for (const perWave of [13.3, 20.7, 47.3])
      for (const noise of [0.01, 0.03]) {
        const heights = SEEDS.map((seed) => stacked(sampled(WAVES[kind], perWave, noise, seed), perWave));
        expect(heights.filter(within).length).toBeGreaterThanOrEqual(LEAST);
        const middle = heights.map((h) => h?.value ?? Number.NaN).sort((a, b) => a - b)[10];
        expect(Math.abs(middle - 1)).toBeLessThan(0.04);
      }
  });
  test("waves whose lengths wander by 8 % are not rounded off", () => {
    for (const kind of ["triangle", "sawtooth"] as const) {
      const heights = SEEDS.map((seed) => stacked(sampled(WAVES[kind], 47.3, 0.01, seed, 0.08), 47.3));
      expect(heights.filter(within).length).toBeGreaterThanOrEqual(LEAST);
      for (const h of heights) expect(h?.value).toBeGreaterThan(0.93);
    }
  });
  test("means over the interval flatten a corner by (a + b) d / 8 at most, and no more is left open", () => {
    for (const perWave of [8.3, 13.3]) {
      const heights = SEEDS.map((seed) => stacked(sampled(WAVES.triangle, perWave, 0.005, seed, 0, 16), perWave));
      expect(heights.filter(within).length).toBeGreaterThanOrEqual(LEAST);
      // Two corners whose flanks rise and fall by 2 a wave: (2 + 2) / 8 of a sample's share each.
      expect(heights[0]?.hidden).toBeGreaterThan(0.6 / perWave);
      expect(heights[0]?.hidden).toBeLessThan(1.4 / perWave);
    }
  });
  test("where noise is a third of the height no single crest is looked at", () => {
    expect(stacked(sampled(WAVES.sine, 20.7, 0.33, 1), 20.7)).toBeNull();
  });
  test("lengths that differ are told with their spread, noise alone makes none", () => {
    const lengthsOf = (spread: number, seed: number) => {
      const { values, turns } = sampled(WAVES.sine, 30.3, 0.02, seed, spread, 1, 20);
      const steady = turns.map((_, i) => i / 30.3);
      return stackWaves({ times: values.map((_, i) => i), values }, spread === 0 ? turns : steady, 30.3)?.lengths.variance ?? Number.NaN;
    };
    // Noise s places a sine of amplitude a, sampled n times in the half wave looked at, to s / (2 pi a sqrt(n / 2)) waves (slopes of least squares).
    const byNoise = 0.02 / (2 * Math.PI * 0.5 * Math.sqrt(30.3 / 4));
    for (const seed of SEEDS) expect(lengthsOf(0, seed)).toBeLessThan(2 * byNoise ** 2);
    const spreads = SEEDS.map((seed) => Math.sqrt(lengthsOf(0.02, seed))).sort((a, b) => a - b);
    expect(spreads[10]).toBeGreaterThan(0.012);
    expect(spreads[10]).toBeLessThan(0.03);
  });
});

describe("waves by their own turns", () => {
  test("unlike waves have their median height in the interval", () => {
    for (const noise of [0, 0.01, 0.02]) {
      const heights = SEEDS.map((seed) => {
        const chance = seededRandom(seed);
        // Each wave a triangle of its own height around 1 and length around 40.
        const sizes: number[] = [];
        const values: number[] = [];
        for (let k = 0; k < 40; k++) {
          const size = 1 + 0.1 * chance.normal();
          const length = Math.round(40 * (1 + 0.1 * chance.normal()));
          sizes.push(size);
          for (let i = 0; i < length; i++) values.push(1 - size * (1 - Math.abs((2 * i) / length - 1)) + noise * chance.normal());
        }
        const truth = [...sizes].sort((a, b) => a - b)[20];
        const h = turnedHeight(Float64Array.from(values), 40, 0.8);
        return h !== null && h.low <= truth && truth <= h.high;
      });
      expect(heights.filter(Boolean).length).toBeGreaterThanOrEqual(LEAST);
    }
  });
  test("noise of one sample is read beside the wave", () => {
    const { values } = sampled(WAVES.sine, 50, 0.02, 5);
    expect(sampleNoise(values, 3)).toBeGreaterThan(0.017);
    expect(sampleNoise(values, 3)).toBeLessThan(0.024);
    expect(sampleNoise(new Float64Array(5), 3)).toBeNaN();
  });
  test("too much noise or too few waves are not asked", () => {
    expect(turnedHeight(sampled(WAVES.sine, 40, 0.1, 3).values, 40, 1)).toBeNull();
    expect(turnedHeight(sampled(WAVES.sine, 40, 0, 3, 0, 1, 4).values, 40, 1)).toBeNull();
  });
});
