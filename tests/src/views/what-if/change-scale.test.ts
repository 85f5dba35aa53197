import { describe, expect, test } from "vitest";
import type { FittedParameter, ParameterId } from "../../../../shared/findings/what-if";
import { NO_SITE_FACTS } from "../../../../shared/site/read-site-facts";
import { METRIC_UNITS, US_UNITS } from "../../../../shared/units/unit-choice";
import { changeScales, changesOf, positionOf, SLIDER_STEPS, valueAtPosition } from "../../../../src/views/what-if/change-scale";
import { readTyped } from "../../../../src/views/what-if/typed-change";

const PSI = 6894.757293168;
/** 100 L charged to 2 bar gauge at 101,325 Pa, set to 4 bar. */
const VALUES: Partial<Record<ParameterId, number>> = {
  "gas-constant": (200_000 + 101_325) * 0.1,
  "tank-volume": 0.1,
  "set-pressure": 400_000,
  "restart-pressure": 350_000,
  "sleep-delay": 20,
  "integral-time": 40,
  "sensor-distance": 0.6,
};
const parameters = new Proxy({} as Record<ParameterId, FittedParameter>, {
  get: (_, id: ParameterId) => ({ id, value: VALUES[id] ?? 0, low: 0, high: 0, scale: "linear", from: "log" }),
});
const scales = changeScales(parameters, { ...NO_SITE_FACTS, atmosphere: { ...NO_SITE_FACTS.atmosphere, value: 101_325 as never } });
const scale = (id: Parameters<typeof scales.get>[0]) => {
  const found = scales.get(id);
  if (found === undefined) throw new Error(`no scale for ${id}`);
  return found;
};

describe("where everything stands", () => {
  test("the precharge follows from gas constant and volume (Boyle's law)", () => {
    expect(scale("precharge").now).toBeCloseTo(200_000, 3);
  });
  test("every value lies on its slider, and a bore that nobody gave has none", () => {
    for (const own of scales.values()) {
      expect(positionOf(own, own.now), own.id).toBeGreaterThanOrEqual(0);
      expect(positionOf(own, own.now), own.id).toBeLessThanOrEqual(SLIDER_STEPS);
    }
    expect(scales.has("pipe-bore")).toBe(false);
  });
});

describe("a slider", () => {
  test("gives its position back, to within a step of the rounding", () => {
    for (const own of scales.values()) {
      for (let position = 4; position <= SLIDER_STEPS; position += 7) {
        const back = positionOf(own, valueAtPosition(own, position, US_UNITS));
        expect(Math.abs(back - position), `${own.id} at ${position}`).toBeLessThanOrEqual(1);
      }
    }
  });
  test("gives numbers that one would write: 0.2 psi and 0.02 bar, or less", () => {
    const psi = valueAtPosition(scale("precharge"), 137, US_UNITS) / PSI;
    const bar = valueAtPosition(scale("precharge"), 137, METRIC_UNITS) / 1e5;
    expect(psi * 5 - Math.round(psi * 5)).toBeCloseTo(0, 6);
    expect(bar * 50 - Math.round(bar * 50)).toBeCloseTo(0, 6);
  });
  test("reaches both its ends", () => {
    expect(valueAtPosition(scale("leak"), 0, US_UNITS)).toBe(0);
    expect(valueAtPosition(scale("gain"), SLIDER_STEPS, US_UNITS)).toBeCloseTo(10, 6);
  });
});

test("what is typed is read with its unit, and a number alone in the unit shown", () => {
  expect(readTyped("precharge", "30", US_UNITS)).toBeCloseTo(30 * PSI, 3);
  expect(readTyped("precharge", "2.1 bar", US_UNITS)).toBeCloseTo(210_000, 3);
  expect(readTyped("gain", "0.5", US_UNITS)).toBe(0.5);
  expect(readTyped("precharge", "30 gal", US_UNITS)).toBeNull();
});

test("changes come in the order of the sliders", () => {
  expect(
    changesOf(
      new Map([
        ["leak", 0],
        ["precharge", 1],
      ]),
    ).map(({ id }) => id),
  ).toEqual(["precharge", "leak"]);
});
