import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { mayOnlyHunt, swingsEvenly } from "../../../analysis/segments/even-swing";
import { turningPoints } from "../../../analysis/segments/turning-points";
import { isCannotTell } from "../../../shared/findings/segment";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";

/** Thirty waves of `period` samples and height 3 by a shape of the share of the period, with a little noise. */
function waves(period: number, shape: (u: number) => number, noise = 0.05): Float64Array {
  const chance = seededRandom(3);
  return Float64Array.from({ length: 30 * period }, (_, i) => 3 * shape((i % period) / period) + noise * chance.normal());
}
const turnsOf = (values: Float64Array) => turningPoints(values, 0, values.length - 1, 1.5);
const rising = (share: number) => (u: number) => (u < share ? u / share : (1 - u) / (1 - share));

describe("hunting goes to and fro alike, starting and stopping does not", () => {
  test.each([8, 12, 20, 60, 200])("a triangle and a sine of %i samples do", (period) => {
    for (const shape of [rising(0.5), rising(0.4), (u: number) => (1 + Math.sin(2 * Math.PI * u)) / 2]) {
      const values = waves(period, shape);
      expect(swingsEvenly(values, turnsOf(values))).toBe(true);
    }
  });
  test.each([20, 60, 200])("a quick rise with a slow fall of %i samples does not", (period) => {
    const values = waves(period, rising(0.15));
    expect(swingsEvenly(values, turnsOf(values))).toBe(false);
  });
  test.each([40, 200])("an even dip after a long hold of %i samples does not", (period) => {
    const values = waves(period, (u) => Math.min(1, Math.abs(u - 0.9) / 0.1));
    expect(swingsEvenly(values, turnsOf(values))).toBe(false);
  });
  test("four lows are too few to say", () => {
    const values = waves(20, rising(0.5)).subarray(0, 100);
    expect(swingsEvenly(values, turnsOf(values))).toBe(false);
  });
  test("a switch may fill and draw at one rate, over its whole differential", () => {
    const values = waves(60, rising(0.5));
    const turns = turnsOf(values);
    expect(mayOnlyHunt(values, turns, 20_000, null)).toBe(true);
    expect(mayOnlyHunt(values, turns, 120_000, null)).toBe(false);
    expect(mayOnlyHunt(values, turns, 120_000, "variable-speed")).toBe(true);
    expect(mayOnlyHunt(values, turns, 20_000, "fixed-speed")).toBe(false);
  });
});

describe("pressure alone at a drive's site", () => {
  const recordWith = (psi: readonly number[]) => {
    const chance = seededRandom(22);
    return recordOf([
      channel(
        "pressure",
        every(1, psi.length),
        psi.map((p) => p * PSI + 350 * chance.normal()),
      ),
    ]);
  };
  const hunting = (seconds: number, period: number, height: number) =>
    Array.from({ length: seconds }, (_, s) => 58 + height * (2 * rising(0.5)((s % period) / period) - 1));

  test("straight waves about the set pressure are no starts", () => {
    const record = recordWith([...hunting(600, 8, 1.4), ...new Array(400).fill(58), ...hunting(600, 8, 1.1), ...new Array(400).fill(58)]);
    expect(isCannotTell(evidenceOf(record, { pump: "variable-speed" }).segments.pump)).toBe(true);
  });

  test("starts that undershoot by different amounts are told from hunting a little above them", () => {
    const psi: number[] = [];
    const starts: number[] = [];
    for (let cycle = 0; cycle < 12; cycle++) {
      const deepest = 50 - cycle * 0.25; // the harder the draw, the further below the starting pressure it falls
      for (let s = 0; s < 60; s++) psi.push(58 - ((58 - deepest) * s) / 60);
      starts.push(psi.length);
      for (let s = 0; s < 4; s++) psi.push(deepest + (58 - deepest) * (s / 4));
      psi.push(...hunting(240, 12, 6)); // down to 52, closer to the starts than these lie together
    }
    psi.push(...new Array(60).fill(58));
    const { pump } = evidenceOf(recordWith(psi), { pump: "variable-speed" }).segments;
    if (isCannotTell(pump)) throw new Error(JSON.stringify(pump));
    expect(pump.runs.filter((run) => starts.some((t) => Math.abs(run.from - t) < 3))).toHaveLength(12);
    expect(pump.runs.length).toBeLessThanOrEqual(13);
  });
});
