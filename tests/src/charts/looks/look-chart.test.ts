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

test.each(CLOSER_LOOKS)("%s has a sentence even where a number is missing", (name) => {
  expect(sayLook(name, {}, US_UNITS)).toMatch(/\.$/);
});
