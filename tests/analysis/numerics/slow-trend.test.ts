import { describe, expect, test } from "vitest";
import { slowTrend } from "../../../analysis/numerics/slow-trend";
import { addTone, noiseOf, seededRandom } from "../../builders/signals";

const RISE = 2;
const SIZE = 300;
const TRIALS = 300;

/** Share of trials whose interval holds the true rise, %. */
function coverage(memory: number, spoil: (values: Float64Array, trial: number) => void): number {
  let covered = 0;
  for (let trial = 0; trial < TRIALS; trial++) {
    const values = noiseOf(SIZE, seededRandom(trial), memory).map((v, i) => v + (RISE * i) / (SIZE - 1));
    spoil(values, trial);
    const trend = slowTrend(
      Float64Array.from(values, (_, i) => i),
      values,
    )!;
    if (trend.low <= RISE && RISE <= trend.high) covered++;
  }
  return (100 * covered) / TRIALS;
}

// 92 to 97 % asked for; three standard deviations of a share from 300 trials are 3.8 %.
describe.each([0, 0.6, 0.9])("the interval of a rise in noise with memory %f", (memory) => {
  test("holds the truth about as often as it says", () => {
    const share = coverage(memory, () => {});
    expect(share).toBeGreaterThan(91);
    expect(share).toBeLessThan(99);
  });
  test("still does under spikes", () => {
    expect(
      coverage(memory, (values, trial) => {
        const chance = seededRandom(1000 + trial);
        for (let k = 0; k < 8; k++) values[chance.below(SIZE)] += 20;
      }),
    ).toBeGreaterThan(91);
  });
  test("still does under a wave", () => {
    expect(coverage(memory, (values, trial) => addTone(values, seededRandom(2000 + trial), { period: 25, amplitude: 3 }))).toBeGreaterThan(
      90,
    );
  });
});

test("a wave is taken off and named", () => {
  const values = addTone(noiseOf(SIZE, seededRandom(1), 0.3), seededRandom(2), { period: 25, amplitude: 3 });
  const trend = slowTrend(
    Float64Array.from(values, (_, i) => i),
    values,
  )!;
  expect(trend.wavePeriod).toBeCloseTo(25, 0);
});
test("eleven values show no trend", () => {
  expect(slowTrend(new Float64Array(11), new Float64Array(11))).toBeNull();
});

test("values in coarse steps leave the rise open by about a step", () => {
  const values = Float64Array.from({ length: SIZE }, (_, i) => Math.round(0.2 + (0.4 * i) / (SIZE - 1)));
  const trend = slowTrend(
    Float64Array.from(values, (_, i) => i),
    values,
  )!;
  expect(trend.low).toBeLessThan(0.4);
  expect(trend.high).toBeGreaterThan(0.4);
});
test("noise blurs steps: the interval still holds the truth about as often as it says", () => {
  let covered = 0;
  for (let trial = 0; trial < TRIALS; trial++) {
    const values = noiseOf(120, seededRandom(trial)).map((v, i) => Math.round(0.7 * v + (RISE * i) / 119));
    const trend = slowTrend(
      Float64Array.from(values, (_, i) => i),
      values,
    )!;
    if (trend.low <= RISE && RISE <= trend.high) covered++;
  }
  expect(covered / TRIALS).toBeGreaterThan(0.91);
});

// A course that settles: the slope of the noise-free course by least squares is the truth.
describe.each([0, 0.6, 0.9])("a course that settles, in noise with memory %f", (memory) => {
  const course = Float64Array.from({ length: SIZE }, (_, i) => 40 * (1 - Math.exp((-4 * i) / SIZE)));
  const middle = (SIZE - 1) / 2;
  const slope = course.reduce((sum, v, i) => sum + v * (i - middle), 0) / course.reduce((sum, _, i) => sum + (i - middle) ** 2, 0);
  const truth = slope * (SIZE - 1);
  const trends = Array.from({ length: TRIALS }, (_, trial) => {
    const noise = noiseOf(SIZE, seededRandom(5000 + trial), memory);
    const times = Float64Array.from({ length: SIZE }, (_, i) => i);
    return slowTrend(
      times,
      course.map((v, i) => v + noise[i]),
    )!;
  });
  test("its change lies within the interval", () => {
    expect(trends.filter(({ low, high }) => low <= truth && truth <= high).length / TRIALS).toBeGreaterThan(0.91);
  });
  test("the bend is not taken for noise: that it rose stands beyond doubt", () => {
    for (const { low } of trends) expect(low).toBeGreaterThan(0.25 * truth);
  });
});
