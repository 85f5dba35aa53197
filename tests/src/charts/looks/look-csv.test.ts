import { expect, test } from "vitest";
import { lookCsv } from "../../../../src/charts/looks/look-csv";

test("numbers stay numbers, a missing one is an empty cell, a heading starts no formula", () => {
  const spec = {
    lines: [{ label: "=low", hue: "pressure", dash: [], draw: "line" }],
    x: null,
    y: { title: "", low: 0, high: 1 },
    marks: [],
  } as const;
  const csv = lookCsv({ spec, data: { x: [1, 2, 3], ys: [[-1.5, null, undefined]] }, xTitle: "Time, s", yTitle: "Pressure, psi" });
  expect(csv.split("\r\n")).toEqual(['"Time, s","\'=low (Pressure, psi)"', "1,-1.5", "2,", "3,", ""]);
});
