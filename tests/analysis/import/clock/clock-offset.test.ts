import { describe, expect, test } from "vitest";
import {
  correlationAt,
  crossCorrelate,
  findClockOffset,
  leastSquaresOffset,
  resample,
} from "../../../../analysis/import/clock/clock-offset";
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

test("the correlation is Pearson's over what both saw, within 1 also where the traces move most there", () => {
  // quiet but for a burst that both saw, at the end of one and the beginning of the other
  const burst = (t: number) => (t > 500 && t < 800 ? 10 * Math.sin(t / 7) * Math.sin(t / 31) : 0.1 * Math.sin(t / 11));
  const first = Float64Array.from({ length: 800 }, (_, i) => i);
  const second = Float64Array.from({ length: 800 }, (_, i) => 480 + i);
  const found = findClockOffset(
    { times: first, values: first.map(burst) },
    { times: second, values: second.map((t) => burst(t + 12)) },
    60,
  );
  expect(found?.offset.value).toBeCloseTo(12, 1);
  expect(found?.correlation).toBeGreaterThan(0.99);
  expect(found?.correlation).toBeLessThanOrEqual(1);
});

test("Pearson's correlation of five points by hand", () => {
  // sums: x 15, y 15, xx 55, yy 55, xy 53, so r = (5 * 53 - 225) / 50 = 0.8
  const times = Float64Array.of(0, 1, 2, 3, 4);
  const a = { times, values: Float64Array.of(1, 2, 3, 4, 5) };
  expect(correlationAt(a, { times, values: Float64Array.of(2, 1, 4, 3, 5) }, 0)).toBeCloseTo(0.8, 12);
});
