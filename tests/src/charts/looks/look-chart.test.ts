import { describe, expect, test } from "vitest";
import { PASCAL_PER_PSI } from "../../../../shared/units/pressure";
import { METRIC_UNITS, US_UNITS } from "../../../../shared/units/unit-choice";
import { CLOSER_LOOKS, sayLook } from "../../../../shared/wording/closer-look";
import type { Look } from "../../../../src/charts/looks/look";
import { lookChart } from "../../../../src/charts/looks/look-chart";

const look: Extract<Look, { state: "shown" }> = {
  look: "tank-line",
  state: "shown",
  x: { title: "Water given", shown: "volume", low: null, high: null },
  y: { title: "1 / pressure", shown: "inversePressure", low: null, high: null },
  lines: [{ label: "log", hue: "pressure", dash: [], draw: "points" }],
  shaded: [],
  marks: [{ kind: "line", axis: "y", at: 1 / 200_000, name: "tank empties", dash: [] }],
  xs: Float64Array.from([0, 0.001]),
  ys: [[1 / 300_000, 1 / 200_000]],
  numbers: {},
};

describe("a picture in the reader's units", () => {
  test("1/p is shown per unit of the pressure that was chosen", () => {
    expect(lookChart(look, METRIC_UNITS, () => []).data.ys[0][1]).toBeCloseTo(0.5, 9);
    expect(lookChart(look, US_UNITS, () => []).data.ys[0][1]).toBeCloseTo(PASCAL_PER_PSI / 200_000, 9);
    expect(lookChart(look, METRIC_UNITS, () => []).yTitle).toBe("1 / pressure, per bar abs");
  });
  test("the axis holds the data and the marks with room around them", () => {
    const { spec } = lookChart(look, METRIC_UNITS, () => []);
    expect(spec.y.low).toBeLessThan(1 / 3);
    expect(spec.y.high).toBeGreaterThan(0.5);
    expect(spec.marks[0]).toMatchObject({ at: expect.closeTo(0.5, 9), label: "tank empties 0.5000 per bar abs" });
  });
});

describe("axes that a person can read", () => {
  const over = (part: Partial<typeof look>) => lookChart({ ...look, marks: [], ...part }, US_UNITS, () => []);
  test("a long time stands in minutes on round minutes, and in seconds among the numbers", () => {
    const { spec, xTitle } = over({ x: { title: "Time since it began", shown: "time", low: 0, high: 3240 } });
    expect(spec.x?.ticks?.slice(0, 3).map((t) => spec.x?.write?.(t))).toEqual(["0", "10\u202fmin", "20\u202fmin"]);
    expect([spec.x?.title, xTitle]).toEqual(["Time since it began", "Time since it began, s"]);
  });
  test("powers of ten reach down to the least value, four of them at most", () => {
    const ys = [[1e-9 * PASCAL_PER_PSI, 2 * PASCAL_PER_PSI]];
    const { spec } = over({ ys, y: { title: "Swing", shown: "pressureDifference", low: null, high: null, decades: 4 } });
    expect(spec.y.logarithmic).toBe(true);
    expect(spec.y.ticks?.map((t) => spec.y.write?.(t))).toEqual(["0.001", "0.01", "0.1", "1"]);
  });
});

test.each(CLOSER_LOOKS)("%s has a sentence even where a number is missing", (name) => {
  expect(sayLook(name, {}, US_UNITS)).toMatch(/\.$/);
});
