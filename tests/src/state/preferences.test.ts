import { describe, expect, test } from "vitest";
import { firstPreferences, readPreferences } from "../../../src/state/preferences";

describe("how a person reads at first", () => {
  test("US units where the region uses them, metric elsewhere", () => {
    expect(firstPreferences("en-US").units).toMatchObject({ pressure: "psi", flow: "gpm", temperature: "°F" });
    expect(firstPreferences("pt-PT").units).toMatchObject({ pressure: "bar", volume: "L" });
    expect(firstPreferences("en-GB").units.pressure).toBe("bar");
  });
  test("numbers in the person's own locale", () => {
    expect(firstPreferences("de-DE").units.locale).toBe("de-DE");
  });
});

describe("what was kept", () => {
  test("is taken over field by field", () => {
    const kept = readPreferences(JSON.stringify({ units: { pressure: "kPa" }, light: "sunlight", clock: "elapsed" }), "en-US");
    expect(kept).toMatchObject({ units: { pressure: "kPa", flow: "gpm" }, light: "sunlight", clock: "elapsed" });
  });
  test.each(["not json", "null", "[]", '{"units":7,"light":"__proto__"}', '{"units":{"pressure":"furlong"}}'])(
    "%s does no harm",
    (text) => {
      expect(readPreferences(text, "en-US")).toEqual(firstPreferences("en-US"));
    },
  );
});
