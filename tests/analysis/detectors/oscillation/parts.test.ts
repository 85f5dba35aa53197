import { describe, expect, test } from "vitest";
import { frequencyOffset, turnedSum } from "../../../../analysis/detectors/oscillation/block-phases";
import { type Companion, companionOf, driverOf, seesThePump, tankBalance } from "../../../../analysis/detectors/oscillation/driver";
import { type RefinedWave, refineWave } from "../../../../analysis/detectors/oscillation/refine";
import { movingMean, steadinessOf } from "../../../../analysis/detectors/oscillation/steadiness";
import { shapeOf } from "../../../../analysis/detectors/oscillation/wave-shape";
import { samplesIn, waveBlocks } from "../../../../analysis/detectors/oscillation/waves";
import { couldFoldFrom, hiddenBySampling } from "../../../../analysis/detectors/oscillation/what-cannot-be-seen";
import { peakBin, standingOut } from "../../../../analysis/detectors/oscillation/window-peaks";
import { paddedPower, powerWithoutTone, screen } from "../../../../analysis/detectors/oscillation/window-power";
import { evenStretches } from "../../../../analysis/segments/even-stretch";
import type { LivingTank, MeterPlace } from "../../../../shared/findings/segment";
import { absolutePascal, STANDARD_ATMOSPHERE } from "../../../../shared/units/pressure";
import { seconds } from "../../../../shared/units/quantity";
import { at, channel, every } from "../../../builders/record";
import { noiseOf, seededRandom } from "../../../builders/signals";
import { span } from "../../../builders/trace";

const TURN = 2 * Math.PI;
const tone = (count: number, period: number, amplitude = 1, phase = 0) =>
  Float64Array.from({ length: count }, (_, i) => amplitude * Math.cos((TURN * i) / period + phase));
const timesOf = (count: number, step = 1) => Float64Array.from({ length: count }, (_, i) => i * step);

describe("power of a window", () => {
  const chance = noiseOf(32, seededRandom(2));
  /** The sum as it is defined. */
  const powerAt = (values: ArrayLike<number>, f: number) => {
    let [re, im] = [0, 0];
    for (let i = 0; i < values.length; i++) {
      re += values[i] * Math.cos(TURN * f * i);
      im -= values[i] * Math.sin(TURN * f * i);
    }
    return re * re + im * im;
  };
  test("in bins of 1/size is the Fourier sum's, and its running sums add it up", () => {
    const { power, sums } = paddedPower(Float64Array.from(chance), 64);
    expect(power.length).toBe(33);
    for (let k = 0; k <= 32; k++) expect(power[k]).toBeCloseTo(powerAt(chance, k / 64), 9);
    expect(sums[0]).toBe(0);
    for (let k = 0; k <= 32; k++) expect(sums[k + 1]).toBeCloseTo(power.slice(0, k + 1).reduce((a, b) => a + b), 9); // biome-ignore format: one rule
  });
  test("the quick look is exact on its own bins, and half-way for a tone half-way", () => {
    const { power, sums } = screen(Float64Array.from(chance));
    for (let k = 0; k <= 16; k++) expect(power[2 * k]).toBeCloseTo(powerAt(chance, k / 32), 9);
    const between = tone(64, 64 / 10.5);
    const seen = screen(Float64Array.from(between)).power[21];
    expect(seen / powerAt(between, 21 / 128)).toBeCloseTo(1, 1);
    expect(sums[33]).toBeCloseTo(
      power.reduce((a, b) => a + b),
      6,
    );
    for (let k = 0; k < 33; k++) expect(sums[k + 1]).toBeCloseTo(power.slice(0, k + 1).reduce((a, b) => a + b), 6); // biome-ignore format: one rule
  });
  test("without its tone nothing of a tone is left, and what was beside it stays", () => {
    const left = powerWithoutTone(tone(100, 9.7, 3, 0.4), 9.7, 256);
    expect(Math.max(...left)).toBeLessThan(1e-18);
    const both = tone(128, 16, 3, 1).map((v, i) => v + tone(128, 4)[i]);
    const beside = powerWithoutTone(both, 16, 256);
    expect(beside[64] / powerAt(tone(128, 4), 1 / 4)).toBeCloseTo(1, 3);
  });
});

describe("peaks", () => {
  test("lie where a tone between two bins is", () => {
    for (const place of [20.1, 20.5, 20.9]) {
      const { power } = paddedPower(tone(128, 256 / place), 256);
      const bin = power.indexOf(Math.max(...power));
      expect(peakBin(power, bin)).toBeCloseTo(place, 0);
      expect(Math.abs(peakBin(power, bin) - place)).toBeLessThan(0.08);
    }
  });
  test("three on a parabola of their logarithms give its top exactly; no top, the bin itself", () => {
    const parabola = (top: number) => Float64Array.from({ length: 9 }, (_, k) => Math.exp(-0.3 * (k - top) ** 2));
    for (const top of [3.7, 4, 4.3]) expect(peakBin(parabola(top), 4)).toBeCloseTo(top, 9);
    expect(peakBin(Float64Array.of(1, 1, 1), 1)).toBe(1);
  });
  const flat = (peaks: Readonly<Record<number, number>>, bins = 129) => {
    const power = Float64Array.from({ length: bins }, (_, k) => peaks[k] ?? 1);
    const sums = new Float64Array(bins + 1);
    for (let k = 0; k < bins; k++) sums[k + 1] = sums[k] + power[k];
    return { power, sums };
  };
  test("that stand out of their neighbours' mean by the ratio asked for, strongest first", () => {
    expect(standingOut(flat({ 40: 50 }), 2, 0, 8)).toEqual([40]);
    expect(standingOut(flat({ 40: 7.9 }), 2, 0, 8)).toEqual([]);
    expect(standingOut(flat({ 40: 8.1 }), 2, 0, 8)).toEqual([40]);
    expect(standingOut(flat({ 40: 50 }), 2, 51, 8)).toEqual([]);
    expect(standingOut(flat({ 40: 50 }), 2, 50, 8)).toEqual([40]);
    expect(standingOut(flat({ 37: 200, 53: 100 }), 2, 0, 8)).toEqual([37, 53]);
    expect(standingOut(flat({ 37: 100, 53: 200 }), 2, 0, 8)).toEqual([53, 37]);
  });
  test("of at least four waves, up to a quarter of the rate", () => {
    expect(standingOut(flat({ 8: 90 }), 2, 0, 8)).toEqual([8]);
    expect(standingOut(flat({ 7: 90 }), 2, 0, 8)).toEqual([]);
    expect(standingOut(flat({ 64: 90 }), 2, 0, 8)).toEqual([64]);
    expect(standingOut(flat({ 65: 90 }), 2, 0, 8)).toEqual([]);
  });
  test("the second is no harmonic of the first, nor its part", () => {
    expect(standingOut(flat({ 20: 200, 40: 100 }), 2, 0, 8)).toEqual([20]);
    expect(standingOut(flat({ 20: 100, 40: 5000 }), 2, 0, 8)).toEqual([40]);
    expect(standingOut(flat({ 10: 200, 60: 100 }), 2, 0, 8)).toEqual([10, 60]);
  });
  test("the higher of two neighbours is the peak", () => expect(standingOut(flat({ 40: 50, 41: 60, 42: 50 }), 2, 0, 8)).toEqual([41]));
});

describe("steadiness", () => {
  test("a mean over a window leaves a line as it is, and takes a wave of its width away", () => {
    const line = Float64Array.from({ length: 50 }, (_, i) => 3 + 2 * i);
    for (const [i, v] of movingMean(line, 50, 7.4).entries()) expect(v).toBeCloseTo(line[i], 9);
    const slow = movingMean(tone(200, 8), 200, 8);
    for (let i = 4; i < 196; i++) expect(slow[i]).toBeCloseTo(0, 9);
    expect([...movingMean([1, 2, 4, 8, 16], 5, 3)]).toEqual([1, 7 / 3, 14 / 3, 28 / 3, 16].map((v) => expect.closeTo(v, 9)));
  });
  test("a wave that keeps on is in phase in every wave; one that turns over half-way is in half of them", () => {
    const steady = steadinessOf(tone(240, 12), 240, 12);
    expect(steady.inPhase).toBe(1);
    expect(steady.medianWave).toBeCloseTo(1, 1);
    expect(steady.regularity).toBeGreaterThan(3);
    const turned = tone(240, 12).map((v, i) => (i < 156 ? v : -v));
    expect(steadinessOf(turned, 240, 12).inPhase).toBeCloseTo(13 / 20, 1);
  });
  test("a ring that dies away stands in few waves; nothing has no phase", () => {
    const ring = tone(240, 12).map((v, i) => v * Math.exp(-i / 20));
    expect(steadinessOf(ring, 240, 12).medianWave).toBeLessThan(0.1);
    expect(steadinessOf(new Float64Array(240), 240, 12)).toMatchObject({ medianWave: 0, inPhase: 0 });
  });
  test("another period than the one asked for is not regular at it", () => {
    expect(steadinessOf(tone(240, 12), 240, 12).regularity).toBeGreaterThan(1);
    expect(steadinessOf(tone(240, 12), 240, 17).regularity).toBe(0);
  });
});

describe("a wave block by block", () => {
  test("has the size and phase that was drawn, the block's own mean left out", () => {
    const values = tone(400, 20, 3, 0.7).map((v, i) => v + (i < 200 ? 5 : 50));
    const blocks = waveBlocks({ times: timesOf(400), values }, 1 / 20, 2, -1e-9, 10);
    expect(blocks.length).toBe(40);
    for (let j = 0; j < 10; j++) {
      expect(blocks.re[j]).toBeCloseTo(3 * Math.cos(0.7), 6);
      expect(blocks.im[j]).toBeCloseTo(3 * Math.sin(0.7), 6);
      expect(blocks.counts[j]).toBe(40);
    }
  });
  test("a block with less than half of its samples is left out; what lies before the origin counts for nothing", () => {
    const kept = [...timesOf(400)].filter((t) => t < 40 || t >= 62);
    const samples = { times: Float64Array.from(kept), values: Float64Array.from(kept, (t) => Math.cos((TURN * t) / 20)) };
    const blocks = waveBlocks(samples, 1 / 20, 2, 0, 10);
    expect([...blocks.re].map(Number.isNaN)).toEqual([false, true, ...new Array(8).fill(false)]);
    expect(waveBlocks(samples, 1 / 20, 2, 80, 3).re[0]).toBeCloseTo(1, 6);
  });
  test("samples of a span, both ends in, missing ones left out", () => {
    const ch = channel("pressure", every(1, 10), [0, 1, 2, Number.NaN, 4, 5, 6, 7, 8, 9]);
    const { times, values } = samplesIn(ch, 2, 5, 100);
    expect([...times]).toEqual([2, 4, 5]);
    expect([...values]).toEqual([2, 4, 5]);
  });
  test("very many are averaged in groups, never so long that a wave is blurred", () => {
    const many = channel("pressure", every(1, 60_000), timesOf(60_000));
    const slow = samplesIn(many, 0, 59_999, 600);
    expect(slow.times.length).toBe(20_000);
    expect([slow.times[0], slow.values[0]]).toEqual([1, 1]);
    expect(samplesIn(many, 0, 59_999, 12).times.length).toBe(60_000);
    expect(samplesIn(many, 0, 59_999, 25).times.length).toBe(30_000);
    expect(samplesIn(many, 0, 19_999, 600).times.length).toBe(20_000);
  });
});

describe("the exact frequency", () => {
  const turning = (offset: number, count: number, length: number) => ({
    re: Float64Array.from({ length: count }, (_, j) => 2 * Math.cos(TURN * offset * length * j + 0.3)),
    im: Float64Array.from({ length: count }, (_, j) => 2 * Math.sin(TURN * offset * length * j + 0.3)),
    length,
  });
  test("is off by what the blocks turn", () => {
    for (const offset of [0.0004, -0.0011, 0]) expect(frequencyOffset(turning(offset, 30, 40))).toBeCloseTo(offset, 8);
    expect(frequencyOffset(turning(0.0004, 2500, 40))).toBeCloseTo(0.0004, 8);
    const holed = turning(0.0007, 30, 40);
    for (const j of [4, 5, 17]) holed.re[j] = holed.im[j] = Number.NaN;
    expect(frequencyOffset(holed)).toBeCloseTo(0.0007, 7);
  });
  test("turned back the blocks add up to their number times their size", () => {
    const { re, im } = turning(0.0007, 25, 40);
    const [a, b] = turnedSum(re, im, TURN * 0.0007 * 40);
    expect(Math.hypot(a, b)).toBeCloseTo(50, 9);
    expect(Math.atan2(b, a)).toBeCloseTo(0.3, 9);
  });
});

describe("a wave refined from its samples", () => {
  const around = { density: 400, carriedBy: 20 };
  const sampled = (values: Float64Array) => ({ times: timesOf(values.length), values });
  const noise = noiseOf(900, seededRandom(9));
  const noisy = (period: number, amplitude: number) => tone(900, period, amplitude, 1).map((v, i) => 4e5 + v + 20 * noise[i]);
  test("has the drawn period and size, each inside its interval", () => {
    const wave = refineWave(sampled(noisy(23.3, 1000)), 23, around, 0)!;
    expect(wave.coherent).toBe(true);
    expect(1 / wave.frequency).toBeCloseTo(23.3, 2);
    expect(wave.frequencyLow).toBeLessThan(1 / 23.3);
    expect(wave.frequencyHigh).toBeGreaterThan(1 / 23.3);
    expect(Math.abs(wave.amplitude - 1000)).toBeLessThan(4 * wave.amplitudeSd);
    expect(wave.share).toBeGreaterThan(0.99);
    expect(wave.share).toBeLessThanOrEqual(1);
  });
  // Rife & Boorstyn 1974: var(f) = 12 s^2 / (2 pi)^2 / (a^2/2 ... ) for a real tone: sd = sqrt(6) s / (pi a T sqrt(n)); amplitude sd = s sqrt(2/n).
  test("its bounds are those of Rife and Boorstyn for the noise around it", () => {
    const [n, s, a] = [900, 20, 1000];
    const wave = refineWave(sampled(noisy(23.3, a)), 23, around, 0)!;
    expect(wave.amplitudeSd / (s * Math.sqrt(2 / n))).toBeCloseTo(1, 0);
    const sd = (Math.sqrt(6) * s) / (Math.PI * a * n * Math.sqrt(n));
    expect((wave.frequencyHigh - wave.frequencyLow) / 2 / sd).toBeGreaterThan(1.96 * 0.7);
    expect((wave.frequencyHigh - wave.frequencyLow) / 2 / sd).toBeLessThan(1.96 * 1.4);
  });
  test("unsure ends widen them: by the sure part to the power of three halves, at least six tenths", () => {
    const width = (unsure: number) => {
      const wave = refineWave(sampled(noisy(23.3, 1000)), 23, around, unsure)!;
      return wave.frequencyHigh - wave.frequencyLow;
    };
    expect(width(899 * 0.2) / width(0)).toBeCloseTo(0.8 ** -1.5, 6);
    expect(width(899 * 0.9) / width(0)).toBeCloseTo(0.6 ** -1.5, 6);
  });
  test("a wave whose phase wanders has a mean frequency and says that it is not one tone", () => {
    const steps = noiseOf(900, seededRandom(21));
    let phase = 0;
    const values = Float64Array.from({ length: 900 }, (_, i) => {
      phase += TURN / 20 + 0.12 * steps[i];
      return 1000 * Math.cos(phase);
    });
    const wave = refineWave(sampled(values), 20, around, 0)!;
    expect(wave.coherent).toBe(false);
    expect(wave.frequencyLow).toBeLessThan(wave.frequency);
    expect(Math.abs(1 / wave.frequency - 20)).toBeLessThan(1);
    expect(wave.amplitude / 1000).toBeGreaterThan(0.8);
    expect(wave.amplitude / 1000).toBeLessThan(1.1);
  });
  test("fewer than three blocks say nothing", () => {
    expect(refineWave(sampled(noisy(400, 1000)), 400, around, 0)).toBeNull();
    expect(refineWave(sampled(noisy(290, 1000)), 290, around, 0)).not.toBeNull();
  });
  test("very many samples are fitted block by block, to the same", () => {
    const values = tone(9000, 31.7, 500, 0.2);
    const wave = refineWave(sampled(values), 31.5, { density: 1, carriedBy: 20 }, 0)!;
    expect(1 / wave.frequency).toBeCloseTo(31.7, 3);
    expect(wave.amplitude).toBeCloseTo(500, 0);
  });
});

describe("a second channel beside the pressure", () => {
  const COUNT = 960;
  const refined = refineWave({ times: timesOf(COUNT), values: tone(COUNT, 24, 1e4) }, 24, { density: 1, carriedBy: 20 }, 0) as RefinedWave;
  const beside = (values: Float64Array, sampling = every(1, COUNT)) =>
    companionOf(channel("flow", sampling, values), refined, 0, COUNT - 1);
  test("that moves with it: coherent, its lead in turns, its size over the pressure's", () => {
    for (const lead of [0, 1, -2]) {
      const companion = beside(tone(COUNT, 24, 3e-4, lead))!;
      expect(companion.coherence).toBeCloseTo(1, 6);
      expect(companion.leads).toBeCloseTo(lead, 3);
      expect(companion.perPascal / 3e-8).toBeCloseTo(1, 3);
    }
    // With n blocks chance reaches 1 - 0.01^(1/(n-1)) once in a hundred.
    expect(beside(tone(COUNT, 24))!.byChance).toBeCloseTo(1 - 0.01 ** (1 / 19), 1);
  });
  test("noise is not; a still channel is not; one with too few samples is not asked", () => {
    expect(beside(noiseOf(COUNT, seededRandom(3)))!.coherence).toBeLessThan(0.4);
    expect(beside(new Float64Array(COUNT))).toMatchObject({ coherence: 0, perPascal: 0 });
    expect(beside(tone(20, 1), every(48, 20))).toBeNull();
    expect(companionOf(null, refined, 0, COUNT)).toBeNull();
  });
});

describe("who drives it, by the phase of the flow", () => {
  const with_ = (degrees: number, coherence = 0.95, perPascal = 1e-8): Companion => ({
    coherence,
    leads: (degrees * Math.PI) / 180,
    perPascal,
    byChance: 0.3,
  });
  const by = (flow: Companion | null, speed: Companion | null, place: MeterPlace["place"], balance: number | null = null) =>
    driverOf(flow, speed, { place, from: "given", certainty: 1 }, balance);
  const moves = with_(80);
  const still = with_(0, 0.1);
  test("drawn through an open fixture it goes with the pressure: within 55 degrees, the loop", () => {
    for (const place of ["after-tank", null] as const) {
      expect([-56, -54, 0, 54, 56].map((d) => by(with_(d), moves, place))).toEqual(["unknown", "loop", "loop", "loop", "unknown"]);
      expect(by(with_(0), null, place)).toBe("loop");
      expect(by(with_(0), still, place)).toBe("unknown");
    }
  });
  test("a swinging draw that the tank answers, from 65 degrees behind or 115 ahead: the demand", () => {
    expect([-64, -66, 114, 116, 180].map((d) => by(with_(d), moves, "after-tank"))).toEqual([
      "unknown",
      "demand",
      "unknown",
      "demand",
      "demand",
    ]);
  });
  // Mass balance of a tank, C dp/dt = in - out: the pump's water swings a quarter turn ahead of the pressure, whether it answers a draw or its own loop.
  test("a meter before the tank tells nothing, wherever its swing stands", () => {
    for (const lead of [-100, -30, 0, 30, 90, 150, 180]) expect(by(with_(lead), moves, "before-tank")).toBe("unknown");
  });
  test("so does one whose place is not given where what goes through it raises the pressure", () => {
    const inferred = (lead: number) => driverOf(with_(lead), moves, { place: "after-tank", from: "log", certainty: 0.9 }, null);
    expect([54, 56, 90, 145, 164, 166].map(inferred)).toEqual(["loop", "unknown", "unknown", "unknown", "unknown", "demand"]);
    const meter = { place: null, from: null, certainty: 0 } as const;
    expect([0, 90, -90].map((d) => seesThePump(with_(d), meter))).toEqual([false, true, false]);
    expect(seesThePump(with_(90, 0.3), meter)).toBe(false);
    expect(seesThePump(null, { place: "before-tank", from: "given", certainty: 1 })).toBe(false);
  });
  test("coherent over a half, and more than chance would give", () => {
    expect(by(with_(0, 0.51), moves, null)).toBe("loop");
    expect(by(with_(0, 0.49), moves, null)).toBe("unknown");
    expect(by({ ...with_(0, 0.6), byChance: 0.61 }, moves, null)).toBe("unknown");
    expect(by({ ...with_(0, 0.6), byChance: 0.59 }, moves, null)).toBe("loop");
    expect(by(null, moves, null)).toBe("unknown");
  });
  test("the water balance goes first: metered after the tank, under half of what the tank takes, while the speed goes with it", () => {
    expect(by(with_(180, 0.95, 0.49e-8), moves, "after-tank", 1e-8)).toBe("loop");
    expect(by(with_(180, 0.95, 0.51e-8), moves, "after-tank", 1e-8)).toBe("demand");
    expect(by(with_(180, 0.95, 0.49e-8), null, "after-tank", 1e-8)).toBe("demand");
    expect(by(with_(180, 0.95, 0.49e-8), moves, null, 1e-8)).toBe("demand");
    expect(by(with_(180, 0.95, 0.49e-8), moves, "after-tank")).toBe("demand");
  });
  // w C with C = K/(n p^2), n 1.4: 2 pi/24 s, 40 kJ, 350 kPa gauge.
  test("what the tank takes at an angular frequency", () => {
    const tank = (low: number, emptiesAt: number | null = null): LivingTank => ({
      heatTime: seconds(0),
      heatShare: 1,
      windows: [],
      gasConstant: { value: 2 * low, low, high: 3 * low },
      give: { value: 2 * low, low, high: 3 * low },
      emptiesAt: emptiesAt === null ? null : { value: emptiesAt, low: emptiesAt, high: emptiesAt },
      emptiesBelow: null,
      points: { drawn: new Float64Array(), inversePressure: new Float64Array(), window: new Uint16Array() },
    });
    const air = absolutePascal(STANDARD_ATMOSPHERE);
    expect(tankBalance(tank(40e3), 1 / 24, 350e3, air)! / (((TURN / 24) * 40e3) / (1.4 * (350e3 + STANDARD_ATMOSPHERE) ** 2))).toBeCloseTo(
      1,
      9,
    );
    expect(tankBalance(tank(0), 1 / 24, 350e3, air)).toBeNull();
    expect(tankBalance(tank(40e3, 340e3), 1 / 24, 350e3, air)).not.toBeNull();
    expect(tankBalance(tank(40e3, 350e3), 1 / 24, 350e3, air)).toBeNull();
    expect(tankBalance({ id: "no-flow-channel", about: "tank", detail: {} }, 1 / 24, 350e3, air)).toBeNull();
  });
});

describe("the shape of a refined wave", () => {
  const shapeFrom = (wave: (x: number) => number, period = 40, count = 800) => {
    const samples = { times: timesOf(count), values: Float64Array.from({ length: count }, (_, i) => 1e4 * wave((i / period) % 1)) };
    return shapeOf(samples, refineWave(samples, period, { density: 1, carriedBy: 20 }, 0)!);
  };
  const sine = (x: number) => Math.cos(TURN * x);
  const triangle = (x: number) => 1 - 4 * Math.abs(x - 0.5);
  // First harmonics by Fourier: 8 / pi^2 of a symmetric triangle from -1 to 1, 4 / pi of a square.
  test("top to bottom over twice the first harmonic's amplitude: 1 of a sine, pi^2/8 of a triangle, pi/4 of a square", () => {
    expect(shapeFrom(sine)).toMatchObject({ shape: "sine", peakToPeakFactor: expect.closeTo(1, 3) });
    expect(shapeFrom(triangle)).toMatchObject({ shape: "triangle", peakToPeakFactor: expect.closeTo(Math.PI ** 2 / 8, 2) });
    expect(shapeFrom((x) => (x < 0.5 ? 1 : -1))).toMatchObject({ shape: "square", peakToPeakFactor: expect.closeTo(Math.PI / 4, 2) });
  });
  test("with fewer than seven samples a wave no shape is claimed", () => {
    const unseen = shapeFrom(triangle, 6.9);
    expect(unseen).toMatchObject({ shape: "unclear", peakToPeakFactor: 1 });
    expect(unseen.factorWithUnseen).toBeGreaterThan(Math.PI ** 2 / 8);
    expect(shapeFrom(triangle, 7.1).peakToPeakFactor).not.toBe(1);
  });
});

describe("what the log hides", () => {
  const LARGEST = 20e3;
  type Seen = {
    readonly step?: number;
    readonly valueStep?: number;
    readonly spans?: readonly (readonly [number, number])[] | null;
    readonly seconds?: number;
  };
  function hidden({ step = 1, valueStep = 1, spans = null, seconds: lasts = 3600 }: Seen) {
    const count = Math.floor(lasts / step) + 1;
    const noise = noiseOf(count, seededRandom(1));
    const ch = channel("pressure", every(step, count), noise.map((v) => Math.round((4e5 + 3 * valueStep * v) / valueStep) * valueStep)); // biome-ignore format: one channel
    const watched = spans?.map(([a, b]) => span(a, b)) ?? null;
    return hiddenBySampling(ch, evenStretches(ch, [], watched), watched, lasts, LARGEST);
  }
  const ids = ({ limits, blocking }: ReturnType<typeof hidden>) => [limits.map((l) => l.id), blocking.map((b) => b.id)];
  test("at a second nothing; waves shorter than four samples at more; over twenty seconds everything", () => {
    expect(ids(hidden({}))).toEqual([[], []]);
    expect(ids(hidden({ step: 1.25 }))).toEqual([[], []]);
    expect(hidden({ step: 1.5 })).toMatchObject({
      limits: [{ id: "sampling-too-slow", about: "oscillation", detail: { intervalS: 1.5, hiddenBelowS: 6, logEveryS: 1 } }],
      blocking: [],
    });
    expect(ids(hidden({ step: 5 }))).toEqual([["sampling-too-slow"], []]);
    expect(ids(hidden({ step: 5.1 }))).toEqual([[], ["sampling-too-slow"]]);
  });
  test("steps of over a quarter of the limit hide some, of over a half all", () => {
    expect(ids(hidden({ valueStep: 5e3 }))).toEqual([[], []]);
    expect(hidden({ valueStep: 5.1e3 })).toMatchObject({
      limits: [{ id: "quantised-too-coarse", detail: { stepPa: expect.closeTo(5.1e3, 3), neededStepPa: 2e3 } }],
    });
    expect(ids(hidden({ valueStep: 10e3 }))).toEqual([["quantised-too-coarse"], []]);
    expect(ids(hidden({ valueStep: 10.1e3 }))).toEqual([[], ["quantised-too-coarse"]]);
  });
  test("a wave must have five times its length in one piece: 25 s at a second", () => {
    expect(ids(hidden({ spans: [[0, 25], [100, 120]] }))).toEqual([[], []]); // biome-ignore format: runs
    expect(ids(hidden({ spans: [[0, 24], [100, 120]] }))).toEqual([[], ["nothing-to-see"]]); // biome-ignore format: runs
    expect(hidden({ seconds: 24 })).toMatchObject({ blocking: [{ id: "record-too-short", detail: { longestS: 24, needS: 250 } }] });
    expect(ids(hidden({ seconds: 49, spans: [[0, 20]] }))).toEqual([[], ["record-too-short"]]);
    expect(ids(hidden({ seconds: 50, spans: [[0, 20]] }))).toEqual([[], ["nothing-to-see"]]);
  });
});

describe("faster waves that would look the same", () => {
  test("1/|k/interval - f|, those of a fifth of a second and of a tenth of the period and more: none would stay in step with the clock", () => {
    const folds = (period: number, step: number) => couldFoldFrom(period, channel("pressure", every(step, 10), new Array(10).fill(0)));
    expect(folds(20, 5)).toEqual(
      [1 / (1 / 5 - 1 / 20), 1 / (1 / 5 + 1 / 20), 1 / (2 / 5 - 1 / 20), 1 / (2 / 5 + 1 / 20)].map((p) => expect.closeTo(p, 9)),
    );
    expect(folds(20, 1)).toEqual([]);
    expect(folds(2, 1)).toEqual([1 - 1 / 2, 1 + 1 / 2, 2 - 1 / 2, 2 + 1 / 2].map((f) => expect.closeTo(1 / f, 9)));
    expect(folds(0.8, 0.2)).toEqual([expect.closeTo(1 / (5 - 1 / 0.8), 9)]);
    expect(couldFoldFrom(20, channel("pressure", at([0, 5.3, 11, 17.9, 22.4]), [0, 0, 0, 0, 0]))).toEqual([]);
    // Rows that are not written leave the clock as it is.
    expect(couldFoldFrom(20, channel("pressure", at([0, 5, 10, 20, 25, 40]), [0, 0, 0, 0, 0, 0]))).toEqual(folds(20, 5));
  });
});
