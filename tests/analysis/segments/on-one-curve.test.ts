import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { onOneCurve } from "../../../analysis/segments/on-one-curve";
import { seconds } from "../../../shared/units/quantity";
import { channel, every } from "../../builders/record";

const CYCLES = 10;
const RUNS = Array.from({ length: CYCLES }, (_, k) => ({ from: seconds(200 * k + 40), to: seconds(200 * k + 160), complete: true }));
/** Pump curve H = H0 - r Q^2 as worked in the affinity-law chapters of pump handbooks: Q at one speed from the pressure alone. */
const flowAt = (pressure: number) => Math.sqrt((6e5 - pressure) / 4e11);

function verdict(pressureAt: (since: number) => number, flowOf: (pressure: number, since: number, cycle: number) => number, noise = 0.02) {
  const chance = seededRandom(3);
  const pressure = Array.from({ length: CYCLES * 200 }, (_, i) => pressureAt(i % 200));
  const flow = pressure.map((p, i) => (i % 200 >= 40 && i % 200 < 160 ? flowOf(p, (i % 200) - 40, Math.floor(i / 200)) : 0));
  const noisy = flow.map((q) => q * (1 + noise * chance.normal()));
  const sampling = every(1, pressure.length);
  return onOneCurve(RUNS, channel("flow", sampling, noisy), noisy, channel("pressure", sampling, pressure), pressure);
}

describe("whether a pump gave one flow at each pressure", () => {
  test("at one speed its runs lie along its curve, from the starting to the stopping pressure", () => {
    const rising = (since: number) => (since < 40 ? 4e5 - 2.5e3 * since : Math.min(4e5, 3e5 + 833 * (since - 40)));
    expect(verdict(rising, flowAt)).toBe(true);
    expect(verdict(rising, flowAt, 0.08)).toBe(true);
  });
  test("a drive gives at its set pressure whatever is drawn", () => {
    const held = (since: number) => (since < 40 ? 4e5 - 1e3 * since : 4e5);
    expect(verdict(held, (_, since, cycle) => (cycle % 2 === 0 ? 7e-4 : 2e-4) * (since < 60 ? 1 : 0.5))).toBe(false);
  });
  test("runs of a few samples do not tell", () => {
    const channelOf = (role: "flow" | "pressure") => channel(role, every(30, 66), new Float64Array(66).fill(1));
    expect(onOneCurve(RUNS, channelOf("flow"), channelOf("flow").values, channelOf("pressure"), channelOf("pressure").values)).toBe(null);
  });
});
