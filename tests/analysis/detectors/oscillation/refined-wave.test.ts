import { sampleStandardDeviation as standardDeviation } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { frequencyOffset, turnedSum } from "../../../../analysis/detectors/oscillation/block-phases";
import { refineWave } from "../../../../analysis/detectors/oscillation/refine";
import { shapeOf } from "../../../../analysis/detectors/oscillation/wave-shape";
import { waveBlocks } from "../../../../analysis/detectors/oscillation/waves";
import { noiseOf, seededRandom } from "../../../builders/signals";

const TURN = 2 * Math.PI;
const secondsOf = (count: number) => Float64Array.from({ length: count }, (_, i) => i);

describe("a wave in a block", () => {
  // value = mean + re cos w(t - origin) - im sin w(t - origin) exactly: least squares give re and im back from any of its samples.
  test("comes back exactly from part of its samples, its phase counted from the origin", () => {
    const [origin, f, re, im] = [7.3, 1 / 20, 2, -1.5];
    const kept = secondsOf(200).filter((t) => t < 7.3 || (t - 7.3) % 40 < 27);
    const values = kept.map((t) => 4e5 + re * Math.cos(TURN * f * (t - origin)) - im * Math.sin(TURN * f * (t - origin)));
    const blocks = waveBlocks({ times: kept, values }, f, 2, origin, 4);
    for (let b = 0; b < 4; b++) {
      expect(blocks.counts[b]).toBe(27);
      expect(blocks.re[b]).toBeCloseTo(re, 6);
      expect(blocks.im[b]).toBeCloseTo(im, 6);
    }
  });
});

describe("the exact frequency in noise", () => {
  const noisy = (offset: number, count: number, length: number) => {
    const noise = noiseOf(2 * count, seededRandom(5));
    const part = (of: (x: number) => number, from: number) =>
      Float64Array.from({ length: count }, (_, j) => 2 * of(TURN * offset * length * j + 0.3) + 0.8 * noise[from + j]);
    return { re: part(Math.cos, 0), im: part(Math.sin, count), length };
  };
  // Rife & Boorstyn 1974: the frequency of greatest likelihood is that of the greatest periodogram, here searched without any cleverness.
  test.each([30, 300])("of %d blocks is where their coherent sum is greatest", (count) => {
    const blocks = noisy(0.0006, count, 40);
    const sizeAt = (offset: number) => Math.hypot(...turnedSum(blocks.re, blocks.im, TURN * offset * 40));
    const fine = 0.02 / (count * 40);
    let best = 0;
    for (let k = -2000; k <= 2000; k++) if (sizeAt(0.0006 + (k * fine) / 10) > sizeAt(best)) best = 0.0006 + (k * fine) / 10;
    expect(Math.abs(frequencyOffset(blocks) - best)).toBeLessThan(fine);
  });
  test("of very many, added up in groups, too", () => {
    const blocks = noisy(0.0006, 2500, 40);
    const sizeAt = (offset: number) => Math.hypot(...turnedSum(blocks.re, blocks.im, TURN * offset * 40));
    const found = frequencyOffset(blocks);
    const resolution = 1 / (2500 * 40);
    for (const away of [-0.5, -0.1, 0.1, 0.5]) expect(sizeAt(found)).toBeGreaterThan(sizeAt(found + away * resolution));
    expect(Math.abs(found - 0.0006)).toBeLessThan(0.1 * resolution);
  });
});

describe("a refined wave", () => {
  const noise = noiseOf(900, seededRandom(9));
  const sampled = (of: (t: number) => number) => ({ times: secondsOf(900), values: secondsOf(900).map(of) });
  const wave = (t: number) => 1000 * Math.cos((TURN * t) / 23.3 + 1);
  test("has its share of what is left when the straight line is out: a sine of size a has a^2/2", () => {
    const onSlope = refineWave(
      sampled((t) => 4e5 + 30 * t + wave(t) + 500 * noise[t]),
      23,
      { density: 25e4, carriedBy: 20 },
      0,
    )!;
    expect(onSlope.share).toBeCloseTo(1000 ** 2 / 2 / (1000 ** 2 / 2 + 500 ** 2), 1);
  });
  test("where the blocks scatter more than the search had found, they alone are believed", () => {
    const values = sampled((t) => 4e5 + wave(t) + 200 * noise[t]);
    const surprised = refineWave(values, 23, { density: 1, carriedBy: 500 }, 0)!;
    expect(surprised.amplitudeSd / (200 * Math.sqrt(2 / 900))).toBeGreaterThan(0.6);
    expect(surprised.amplitudeSd / (200 * Math.sqrt(2 / 900))).toBeLessThan(1.5);
    expect(surprised.degreesOfFreedom).toBeLessThan(2 * 20);
    const agreed = refineWave(values, 23, { density: 200 ** 2, carriedBy: 500 }, 0)!;
    expect(agreed.amplitudeSd / (200 * Math.sqrt(2 / 900))).toBeCloseTo(1, 1);
    expect(agreed.degreesOfFreedom).toBeGreaterThan(1000);
  });
  test("that starts late in the record is refined as well as one at its start", () => {
    const { times, values } = sampled((t) => 4e5 + wave(t) + 20 * noise[t]);
    const [early, late] = [0, 86_400].map((shift) => refineWave({ times: times.map((t) => t + shift), values }, 23, { density: 400, carriedBy: 20 }, 0)!); // biome-ignore format: two
    expect(late.frequency).toBeCloseTo(early.frequency, 9);
    expect(late.frequencyHigh - late.frequencyLow).toBeCloseTo(early.frequencyHigh - early.frequencyLow, 9);
  });
  // Each wave of 20 s has a size of its own: the mean's standard error is the sizes' standard deviation over the root of their number.
  test("whose size and phase wander has the standard error of its waves' sizes", () => {
    const chance = seededRandom(3);
    const sizes = Array.from({ length: 60 }, () => 700 + 600 * chance.next());
    const times = secondsOf(60 * 20);
    const values = times.map((t) => sizes[Math.floor(t / 20)] * Math.cos((TURN * t) / 20 + 2 * Math.sin((TURN * t) / 300)));
    const refined = refineWave({ times, values }, 20, { density: 1, carriedBy: 20 }, 0)!;
    expect(refined.coherent).toBe(false);
    // A block may take in parts of two waves, and their mean scatters less.
    const standardError = standardDeviation(sizes) / Math.sqrt(sizes.length);
    expect(refined.amplitudeSd / standardError).toBeGreaterThan(Math.SQRT1_2);
    expect(refined.amplitudeSd / standardError).toBeLessThan(1.1);
    const meanSquare = sizes.reduce((sum, size) => sum + size * size, 0) / sizes.length;
    expect(refined.amplitude / Math.sqrt(meanSquare - 2 * standardDeviation(sizes) ** 2)).toBeGreaterThan(0.97);
    expect(refined.amplitude / Math.sqrt(meanSquare)).toBeLessThan(1.01);
  });

  /** Thirty waves, each of its own length: lengths scatter about their mean and remember half of the last. */
  const wanderingWave = (seed: number, of: (turns: number) => number, wander: number, perWave: number, noise: number) => {
    const drawn = noiseOf(4000, seededRandom(seed));
    const values: number[] = [];
    let own = 0;
    for (let turns = 0, wave = -1; turns < 30; turns += 1 / (perWave * (1 + wander * own))) {
      if (Math.floor(turns) !== wave) own = Math.max(-2, Math.min(2, 0.7 * own + 0.7 * drawn[++wave]));
      values.push(of(turns) + noise * drawn[100 + values.length]);
    }
    return { times: secondsOf(values.length), values: Float64Array.from(values) };
  };
  const sine = (turns: number) => Math.cos(TURN * turns);
  const quickRise = (turns: number) => (turns % 1 < 0.25 ? 8 * (turns % 1) - 1 : 1 - ((turns % 1) - 0.25) * (8 / 3));
  test.each([
    ["sine", sine, 0.05],
    ["sine", sine, 0.15],
    ["quick rise", quickRise, 0.05],
    ["quick rise", quickRise, 0.15],
  ] as const)("of a wandering period is as high as each of its waves: %s, %d", (_, of, wander) => {
    let heights = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const samples = wanderingWave(seed, of, wander, 16, 0.2);
      const wave = refineWave(samples, samples.times.length / 30, { density: 0.04, carriedBy: 40 }, 0)!;
      heights += (2 * wave.amplitude * shapeOf(samples, wave).peakToPeakFactor) / 20;
    }
    expect(heights).toBeGreaterThan(1.88);
    expect(heights).toBeLessThan(2.04);
  });
});
