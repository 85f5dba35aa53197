import { expect, test } from "vitest";
import { commonestGap, isRhythm } from "../../../analysis/diagnosis/observations/rhythm";
import { seededRandom } from "../../../analysis/numerics/random";

function startsWith(gaps: readonly number[]): number[] {
  const times = [0];
  for (const gap of gaps) times.push(times[times.length - 1] + gap);
  return times;
}

test("even times are a rhythm with their own gap, also among a few odd ones", () => {
  const { gap, share } = commonestGap(startsWith([100, 104, 98, 700, 101, 3, 99, 102]));
  expect(gap).toBeGreaterThanOrEqual(98);
  expect(gap).toBeLessThanOrEqual(104);
  expect(share).toBeCloseTo(6 / 8, 12);
});

// P(a < gap < 1.3 a) of an exponential law is at most 0.104 (at a = ln 1.3 / 0.3): e^-a - e^-1.3a.
test("chance alone seldom passes for a rhythm", () => {
  const random = seededRandom(7);
  for (const events of [12, 30, 100, 1000]) {
    const trials = Array.from(
      { length: 200 },
      () => commonestGap(startsWith(Array.from({ length: events }, () => -Math.log(1 - random.next())))).share,
    );
    expect(trials.filter((share) => isRhythm(share, events)).length / trials.length).toBeLessThan(0.02);
  }
});
