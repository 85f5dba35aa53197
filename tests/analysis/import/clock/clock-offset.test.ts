import { describe, expect, test } from "vitest";
import { crossCorrelate, findClockOffset, leastSquaresOffset, resample } from "../../../../analysis/import/clock/clock-offset";
import { seededRandom } from "../../../../analysis/numerics/random";
import golden from "../../../golden/clock-offset.json";

const a = { times: Float64Array.from(golden.ta), values: Float64Array.from(golden.ya) };
const b = { times: Float64Array.from(golden.tb), values: Float64Array.from(golden.yb) };

/** Computed with NumPy and SciPy; truth 7.35 s, bound 0.034 s. */
describe("two recorders of one signal", () => {
  test("cross-correlation agrees with NumPy at every lag", () => {
    const { output } = golden.cases["clock-offset"];
    const found = crossCorrelate(resample(a, 0, 0.5, 1780), resample(b, 0, 0.5, 1780), 60);
    for (const [i, c] of found.correlations.entries()) expect(c).toBeCloseTo(output.c[i], 9);
    expect([found.lag, found.rest]).toEqual([output.lag, expect.closeTo(output.delta, 7)]);
  });

  test("least squares agree with SciPy", () => {
    const { output } = golden.cases["clock-offset-ls"];
    const found = leastSquaresOffset(a, b, 6, 9);
    expect(Math.abs(found.offset - output.offset_s)).toBeLessThan(1e-4 * output.offset_s);
    expect(found.meanSquare).toBeCloseTo(output.mean_square, 7);
  });

  test("the offset is found within twice the bound, and its interval is near the bound", () => {
    const found = findClockOffset(a, b, 60);
    expect(Math.abs(found!.offset.value - 7.35)).toBeLessThan(2 * 0.034);
    expect((found!.offset.high - found!.offset.low) / 3.92).toBeLessThan(2 * 0.034);
    expect((found!.offset.high - found!.offset.low) / 3.92).toBeGreaterThan(0.034 / 2);
    expect(found?.certain).toBe(true);
  });
});

test("the interval covers a known offset in most of many made pairs, and another gain does not matter", () => {
  const random = seededRandom(7);
  let covered = 0;
  for (let run = 0; run < 200; run++) {
    const truth = 40 * (random.next() - 0.5);
    const phases = Array.from({ length: 12 }, () => [0.01 + 0.15 * random.next(), 6.28 * random.next()] as const);
    const signal = (t: number) => phases.reduce((sum, [w, p]) => sum + Math.sin(w * t + p), 0);
    const times = Float64Array.from({ length: 800 }, (_, i) => i);
    const first = { times, values: times.map((t) => signal(t) + 0.2 * random.normal()) };
    const slow = Float64Array.from({ length: 300 }, (_, i) => 20 + i * 2.3);
    const second = { times: slow, values: slow.map((t) => 3 + 14.5 * (signal(t + truth) + 0.2 * random.normal())) };
    const found = findClockOffset(first, second, 60);
    if (found !== null && found.offset.low <= truth && truth <= found.offset.high) covered++;
  }
  expect(covered).toBeGreaterThanOrEqual(180);
});

test("a trace that repeats itself leaves the offset in doubt", () => {
  const times = Float64Array.from({ length: 900 }, (_, i) => i);
  const wave = { times, values: times.map((t) => Math.sin(t / 5)) };
  expect(findClockOffset(wave, { times, values: times.map((t) => Math.sin((t + 7) / 5)) }, 120)?.certain).toBe(false);
});

test("a trace that does not move gives no offset", () => {
  const times = Float64Array.from({ length: 100 }, (_, i) => i);
  expect(findClockOffset({ times, values: times.map(() => 3) }, { times, values: times.map((t) => Math.sin(t)) }, 20)).toBeNull();
});
