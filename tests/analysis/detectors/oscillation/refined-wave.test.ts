import { sampleStandardDeviation as standardDeviation } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { frequencyOffset, refineWave, turnedSum } from "../../../../analysis/detectors/oscillation/refine";
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
  // Blocks of two waves of 20 s; each size drawn anew: the mean's standard error is their standard deviation over the root of their number.
  test("whose size and phase wander has the standard error of its blocks' sizes", () => {
    const chance = seededRandom(3);
    const drawn = Array.from({ length: 30 }, (_, j) => ({ size: 700 + 600 * chance.next(), phase: 2 * Math.sin((TURN * j) / 15) }));
    const count = 30 * 40 + 1;
    const times = secondsOf(count);
    const values = times.map((t) => {
      const { size, phase } = drawn[Math.min(29, Math.floor(t / 40))];
      return size * Math.cos((TURN * t) / 20 + phase);
    });
    const refined = refineWave({ times, values }, 20, { density: 1, carriedBy: 20 }, 0)!;
    expect(refined.coherent).toBe(false);
    expect(refined.degreesOfFreedom).toBe(refined.blocks.re.length - 1);
    const sizes = [...refined.blocks.re].map((re, j) => Math.hypot(re, refined.blocks.im[j]));
    const standardError = standardDeviation(sizes) / Math.sqrt(sizes.length);
    expect(refined.amplitudeSd).toBeCloseTo(standardError, 6);
    expect(standardError).toBeGreaterThan(10);
  });
});
