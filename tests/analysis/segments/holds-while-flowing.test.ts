import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { holdsWhileFlowing } from "../../../analysis/segments/holds-while-flowing";
import { seconds } from "../../../shared/units/quantity";

const COUNT = 7200;
const sampling = { kind: "even", start: seconds(0), step: seconds(1), count: COUNT } as const;
const whole = [{ first: 0, last: COUNT - 1, from: seconds(0), to: seconds(COUNT - 1) }];
const drawnHalf = (t: number) => t % 600 < 300;
const noise = seededRandom(1);
const column = (pressureAt: (t: number) => number) => Float64Array.from({ length: COUNT }, (_, t) => pressureAt(t) + 500 * noise.normal());

describe("a pressure that stays at one level while water is drawn is held by a drive", () => {
  test("held through each draw after a dip at its beginning", () => {
    const held = column((t) => 400_000 - 60_000 * Math.exp(-(t % 600) / 5));
    expect(holdsWhileFlowing(held, sampling, whole, drawnHalf)).toBe(true);
  });
  test("a switched pump's saw-tooth of a minute is not held", () => {
    const saw = column((t) => 300_000 + 100_000 * Math.abs(((t % 120) - 60) / 60));
    expect(holdsWhileFlowing(saw, sampling, whole, drawnHalf)).toBe(false);
  });
  test("a slow fall out of a large tank is still now and then, but never twice at one level", () => {
    const slow = column((t) => 400_000 - (100_000 * (t % 1800)) / 1800);
    expect(holdsWhileFlowing(slow, sampling, whole, drawnHalf)).toBe(false);
  });
  test("what is still while nothing is drawn says nothing", () => {
    const rest = column((t) => (drawnHalf(t) ? 300_000 + 100_000 * Math.abs(((t % 120) - 60) / 60) : 400_000));
    expect(holdsWhileFlowing(rest, sampling, whole, drawnHalf)).toBe(false);
  });
});
