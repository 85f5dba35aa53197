import { expect, test } from "vitest";
import { unitChoices } from "../../../../src/views/bring-in/unit-choices";

test("what the reader proposed comes first, each unit once", () => {
  const units = unitChoices({ role: "pressure", unit: "bar", unitOptions: ["kPa", "bar"] });
  expect(units.slice(0, 3)).toEqual(["bar", "kPa", "psi"]);
  expect(new Set(units).size).toBe(units.length);
});
test("a pressure may be a raw signal, but not a flow", () => {
  const units = unitChoices({ role: "pressure", unit: null, unitOptions: ["gpm"] });
  expect(units).toContain("mA");
  expect(units).not.toContain("gpm");
});
test("a proposed unit that no table knows is still offered", () => {
  expect(unitChoices({ role: "pressure", unit: null, unitOptions: ["counts"] })[0]).toBe("counts");
});
test("time, a running flag and an unused column have no unit to choose", () => {
  for (const role of ["time", "running", "other"] as const) expect(unitChoices({ role, unit: null, unitOptions: ["s"] })).toEqual([]);
});
