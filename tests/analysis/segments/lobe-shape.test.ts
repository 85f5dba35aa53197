import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { isSmoothWave, lobeShape } from "../../../analysis/segments/lobe-shape";
import { turningPoints } from "../../../analysis/segments/turning-points";

/** Waves of height 5 about 0; `rise` is the share of the period that a saw-tooth rises. */
const sine = (period: number, noise: number) => wave((u) => 2.5 * Math.sin(2 * Math.PI * u), period, noise);
const saw = (period: number, rise: number, noise: number) =>
  wave((u) => (u < rise ? u / rise : (1 - u) / (1 - rise)) * 5 - 2.5, period, noise);

function wave(shape: (u: number) => number, period: number, noise: number): Float64Array {
  const random = seededRandom(4);
  return Float64Array.from({ length: 900 }, (_, i) => shape((i % period) / period) + noise * random.normal());
}

const turnsOf = (values: Float64Array) => turningPoints(values, 0, values.length - 1, 2.5);

describe("a smooth wave is told from a saw-tooth", () => {
  test.each([
    [12, 0.05],
    [15, 0.2],
    [20, 0.1],
    [30, 0.5],
    [56, 0.05],
    [56, 0.5],
  ])("a sine of %i samples, noise %f", (period, noise) => {
    const values = sine(period, noise);
    expect(isSmoothWave(values, turnsOf(values), 0)).toBe(true);
  });
  test.each([
    [12, 0.5, 0.05],
    [20, 0.3, 0.1],
    [30, 0.3, 0.5],
    [60, 0.5, 0.1],
    [120, 0.25, 0.5],
    [60, 0.1, 0.2],
  ])("a saw-tooth of %i samples, rising %f of them, noise %f", (period, rise, noise) => {
    const values = saw(period, rise, noise);
    expect(isSmoothWave(values, turnsOf(values), 0)).toBe(false);
  });
});

test("the index agrees with its thresholds: under 0.4 for a sine, over 0.6 for a triangle (He et al. 2007)", () => {
  const [smooth, corners] = [sine(60, 0.01), saw(60, 0.5, 0.01)];
  expect(lobeShape(smooth, turnsOf(smooth), 0, "high")).toBeLessThan(0.4);
  expect(lobeShape(corners, turnsOf(corners), 0, "high")).toBeGreaterThan(0.6);
});
test("too few half waves have no shape", () => expect(lobeShape(sine(60, 0), turnsOf(sine(60, 0)).slice(0, 4), 0, "high")).toBeNull());
