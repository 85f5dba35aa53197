import { describe, expect, test } from "vitest";
import type { RefinedWave } from "../../../../analysis/detectors/oscillation/refine";
import { shapeOf } from "../../../../analysis/detectors/oscillation/wave-shape";

const TURN = 2 * Math.PI;
/** 800 samples of a wave of 40 s, in blocks of two waves. */
const [COUNT, PERIOD, BLOCKS] = [800, 40, 10];
/** s into the record; 90 waves. */
const BEGIN = 3600;

type Wave = (phase: number) => number;
type Drawn = {
  /** Added to every other sample and taken from the rest: noise that stands in no harmonic. */
  readonly beside?: number;
  /** rad by which the wave is late after so many blocks; a wave that wanders. */
  readonly late?: (blocks: number) => number;
  /** Blocks without a wave of their own. */
  readonly missing?: readonly number[];
  readonly perWave?: number;
};

/** A wave known exactly, without any fit. */
function shapeFrom(wave: Wave, { beside = 0, late, missing = [], perWave = PERIOD }: Drawn = {}) {
  const count = Math.round((COUNT * perWave) / PERIOD);
  const times = Float64Array.from({ length: count }, (_, i) => BEGIN + (i * PERIOD) / perWave);
  const blockAt = (t: number) => Math.floor((t - BEGIN) / (2 * PERIOD));
  const values = times.map((t, i) => {
    const here = blockAt(t);
    if (missing.includes(here)) return 4e5 + 3e4 * (i % 3);
    return 4e5 + 1e4 * (wave((TURN * t) / PERIOD - (late?.((t - BEGIN) / (2 * PERIOD)) ?? 0)) + (i % 2 === 0 ? beside : -beside));
  });
  const size = (of: (x: number) => number) =>
    Float64Array.from({ length: BLOCKS }, (_, j) => (missing.includes(j) ? Number.NaN : 1e4 * of(late?.(j + 0.5) ?? 0)));
  const refined: RefinedWave = {
    frequency: late === undefined ? 1 / PERIOD : Number.NaN,
    frequencyLow: 1 / PERIOD,
    frequencyHigh: 1 / PERIOD,
    amplitude: 1e4,
    amplitudeSd: 1,
    degreesOfFreedom: 100,
    share: 0.9,
    coherent: late === undefined,
    blocks: {
      frequency: 1 / PERIOD,
      origin: BEGIN - 1e-9,
      length: 2 * PERIOD,
      re: size(Math.cos),
      im: size((x) => -Math.sin(x)),
      counts: new Uint32Array(BLOCKS).fill(2 * PERIOD),
    },
  };
  return shapeOf({ times, values }, late === undefined ? refined : { ...refined, frequency: 1 / PERIOD });
}
/** cos x with harmonics of given sizes in phase with it. */
const withHarmonics =
  (sizes: Readonly<Record<number, number>>): Wave =>
  (x) =>
    Object.entries(sizes).reduce((sum, [m, size]) => sum + size * Math.cos(Number(m) * x), Math.cos(x));
/** Fourier series to the fifth, first harmonic 1: a triangle of a rise d has sin(pi m d)/m^2, a pulse of a duty d sin(pi m d)/m. */
const triangle =
  (d: number): Wave =>
  (x) =>
    [1, 2, 3, 4, 5].reduce((sum, m) => sum + (Math.sin(Math.PI * m * d) / (m * m * Math.sin(Math.PI * d))) * Math.sin(m * x), 0);
const pulse =
  (d: number): Wave =>
  (x) =>
    [1, 2, 3, 4, 5].reduce((sum, m) => sum + (Math.sin(Math.PI * m * d) / (m * Math.sin(Math.PI * d))) * Math.cos(m * x), 0);
const shape = (wave: Wave, drawn?: Drawn) => shapeFrom(wave, drawn).shape;
// First harmonics (Fourier): 2 sin(pi d) / (pi^2 d (1 - d)) of a triangle from -1 to 1, 4 sin(pi d) / pi of a pulse.
describe("the nearest of sine, triangle and square", () => {
  test.each([0.06, 0.2, 0.4, 0.5, 0.7, 0.94])("a triangle that rises for %d of its wave", (rise) => {
    const { shape: found, peakToPeakFactor } = shapeFrom(triangle(rise));
    expect(found).toBe("triangle");
    expect(peakToPeakFactor / ((Math.PI ** 2 * rise * (1 - rise)) / (2 * Math.sin(Math.PI * rise)))).toBeCloseTo(1, 2);
  });
  test.each([0.28, 0.42, 0.5, 0.72])("a square that is up for %d of its wave", (duty) => {
    const { shape: found, peakToPeakFactor } = shapeFrom(pulse(duty));
    expect(found).toBe("square");
    expect(Math.abs(peakToPeakFactor / (Math.PI / (4 * Math.sin(Math.PI * duty))) - 1)).toBeLessThan(0.02);
  });
  test("a pulse of a fifth of its wave is none of them", () => expect(shape(pulse(0.2))).toBe("unclear"));
  // A symmetric triangle has 1/9 of the third and 1/25 of the fifth. From 0.0625 of the third on it is nearer than the sine.
  test("between sine and triangle the nearer by its harmonics, a sine where none is a twentieth", () => {
    expect([0, 0.045, 0.055, 0.065, 0.1].map((third) => shape(withHarmonics({ 3: third })))).toEqual([
      "sine",
      "sine",
      "sine",
      "triangle",
      "triangle",
    ]);
    expect(shapeFrom(withHarmonics({ 3: 0.045 })).peakToPeakFactor).toBeCloseTo(1.045, 3);
  });
  test("a harmonic of a seventh that none of them has leaves it open", () => {
    expect(shape(withHarmonics({ 4: 0.138 }))).toBe("sine");
    expect(shape(withHarmonics({ 4: 0.146 }))).toBe("unclear");
  });
});

describe("noise, as the spread of one harmonic over the first", () => {
  // Every sample off by s has variance s^2, a harmonic's part of n samples sqrt(2 s^2 / n).
  const spread = (noise: number) => ({ beside: noise * Math.sqrt(COUNT / 2) });
  test("of over six hundredths leaves the shape open, not the height", () => {
    expect(shapeFrom(withHarmonics({}), spread(0.059))).toMatchObject({ shape: "sine", peakToPeakFactor: expect.closeTo(1, 6) });
    expect(shapeFrom(withHarmonics({}), spread(0.061))).toMatchObject({ shape: "unclear", peakToPeakFactor: expect.closeTo(1, 6) });
  });
  test("hides harmonics under three times itself from the height", () => {
    expect(shapeFrom(withHarmonics({ 3: 0.057 }), spread(0.02)).peakToPeakFactor).toBeCloseTo(1, 6);
    const beyondTheFifth = Math.PI ** 2 / 8 / (1 + 1 / 9 + 1 / 25); // of a symmetric triangle, the nearest
    expect(shapeFrom(withHarmonics({ 3: 0.063 }), spread(0.02)).peakToPeakFactor).toBeCloseTo(1.063 * beyondTheFifth, 3);
  });
  test("that hides a harmonic leaves the plainer sine, where the triangle would be nearer", () => {
    expect(shape(withHarmonics({ 3: 0.065 }), spread(0.03))).toBe("sine");
    expect(shape(withHarmonics({ 3: 0.065 }), spread(0.015))).toBe("triangle");
  });
  test("that hides each of several harmonics does not hide what they are together", () => {
    expect(shape(withHarmonics({ 3: 0.11, 4: 0.11 }), spread(0.055))).toBe("sine");
    expect(shape(withHarmonics({ 3: 0.14, 4: 0.14 }), spread(0.055))).toBe("triangle");
  });
  test("lets more pass for a sine: what is hidden in it is not held against it", () => {
    expect(shape(withHarmonics({ 4: 0.16 }), spread(0.03))).toBe("sine");
    expect(shape(withHarmonics({ 4: 0.16 }), spread(0.01))).toBe("unclear");
  });
});

describe("what the mean wave is taken over", () => {
  test("a wave that wanders, along its own phase", () => {
    const wandering = (block: number) => 0.9 * block;
    const symmetric: Wave = withHarmonics({ 3: 1 / 9, 5: 1 / 25 });
    expect(shapeFrom(symmetric, { late: wandering })).toMatchObject({
      shape: "triangle",
      peakToPeakFactor: expect.closeTo(Math.PI ** 2 / 8, 1),
    });
    expect(shape(withHarmonics({}), { late: wandering })).toBe("sine");
  });
  test("blocks without a wave are left out, and the rest is no noisier for it", () => {
    const holed = { missing: [2, 3, 7, 8, 9] };
    expect(shape(triangle(0.5), holed)).toBe("triangle");
    expect(shapeFrom(withHarmonics({ 3: 0.045 }), holed).peakToPeakFactor).toBeCloseTo(1.045, 3);
    expect(shapeFrom(withHarmonics({}), { ...holed, beside: 0.055 * Math.sqrt(COUNT / 4) }).shape).toBe("sine");
  });
  test("three harmonics from seven samples a wave on, four from nine, five from eleven", () => {
    const factor = (m: number, perWave: number) => shapeFrom(withHarmonics({ [m]: 0.2 }), { perWave }).peakToPeakFactor;
    expect(factor(3, 6.9)).toBe(1);
    for (const [m, perWave] of [[3, 8], [4, 10], [5, 20]] as const) expect(factor(m, perWave)).toBeGreaterThan(1.05); // biome-ignore format: three
    for (const [m, perWave] of [[4, 8], [5, 10]] as const) expect(factor(m, perWave)).toBeCloseTo(1, 6); // biome-ignore format: two
  });
});
