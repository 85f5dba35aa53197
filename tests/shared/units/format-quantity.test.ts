import { describe, expect, test } from "vitest";
import {
  formatFigures,
  formatMeasured,
  formatNumber,
  formatOwn,
  formatQuantity,
  formatRange,
  formatReading,
} from "../../../shared/units/format-quantity";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { METRIC_UNITS, US_UNITS } from "../../../shared/units/unit-choice";

const plain = (text: string) => text.replaceAll("\u202f", " ").replaceAll("\u2212", "-");
const psi = (x: number) => x * PASCAL_PER_PSI;

describe("a quantity in the reader's units", () => {
  // Factors: NIST SP 811, App. B.8.
  test("pressure in psi and bar", () => {
    expect(plain(formatQuantity(psi(52), "gaugePressure", US_UNITS))).toBe("52.0 psi");
    expect(plain(formatQuantity(psi(52), "gaugePressure", METRIC_UNITS))).toBe("3.59 bar"); // 52 x 0.06894757
  });
  test("flow in gpm, L/min and m3/h", () => {
    expect(plain(formatQuantity(0.0630902e-3 * 10, "flow", US_UNITS))).toBe("10.0 gpm");
    expect(plain(formatQuantity(0.0630902e-3 * 10, "flow", METRIC_UNITS))).toBe("37.9 L/min");
    expect(plain(formatQuantity(0.0630902e-3 * 10, "flow", { ...METRIC_UNITS, flow: "m³/h" }))).toBe("2.27 m³/h");
  });
  test("temperature has an offset: 0 C is 32 F", () => {
    expect(plain(formatQuantity(273.15, "temperature", US_UNITS))).toBe("32.0 °F");
  });
  test("time as people say it", () => {
    expect(plain(formatQuantity(18.24, "time", US_UNITS))).toBe("18.2 s");
    expect(plain(formatQuantity(250, "time", US_UNITS))).toBe("4 min 10 s");
    expect(plain(formatQuantity(119.7, "time", US_UNITS))).toBe("2 min");
    expect(plain(formatQuantity(3.2 * 3600, "time", US_UNITS))).toBe("3.20 h");
    expect(plain(formatQuantity(3 * 86400, "time", US_UNITS))).toBe("3.00 days");
  });
  test("a reading is no finer than its signal's own step", () => {
    expect(plain(formatReading(psi(57.7), psi(62.2), psi(0.1), "gaugePressure", US_UNITS))).toBe("57.7 to 62.2 psi");
    expect(plain(formatReading(psi(57.72), psi(57.72), psi(0.01), "gaugePressure", US_UNITS))).toBe("57.72 psi");
    expect(plain(formatReading(0.571, 0.571, 0.001, "fraction", US_UNITS))).toBe("57.1 %");
    expect(plain(formatReading(0.57, 0.57, 0.01, "fraction", US_UNITS))).toBe("57 %");
    expect(plain(formatReading(psi(57.7), psi(57.7), psi(0.1), "gaugePressure", METRIC_UNITS))).toBe("3.98 bar"); // 0.1 psi is 0.007 bar
    expect(plain(formatReading(psi(57.7), psi(57.7), 0, "gaugePressure", METRIC_UNITS))).toBe("3.978 bar");
  });
  test("what is not known says so", () => expect(formatQuantity(Number.NaN, "flow", US_UNITS)).toBe("not known"));
  test("a true minus, and none before zero", () => {
    expect(formatNumber(-1.5, 1, null)).toBe("\u22121.5");
    expect(formatNumber(-0.01, 1, null)).toBe("0.0");
  });
  test("the reader's decimal mark", () => expect(formatNumber(1234.5, 1, "de-DE")).toBe("1.234,5"));
});

describe("a measurement", () => {
  test("shows no more digits than its interval allows", () => {
    expect(plain(formatMeasured({ value: 18.2134, low: 17.9, high: 18.5 }, "time", US_UNITS))).toBe("18.2 s (17.9 to 18.5)");
    expect(plain(formatMeasured({ value: 18.2134, low: 12.4, high: 25.1 }, "time", US_UNITS))).toBe("18 s (12 to 25)");
    expect(plain(formatMeasured({ value: psi(41.23), low: psi(28.4), high: psi(58.9) }, "gaugePressure", US_UNITS))).toBe(
      "41 psi (28 to 59)",
    );
  });
  test("a range to aim for", () => expect(plain(formatRange(psi(32), psi(37), "gaugePressure", US_UNITS))).toBe("32 to 37 psi"));
});

// Marks of decimals and groups as the Unicode CLDR gives them for German.
test("a number with its own decimals, or with so many figures, is written as the reader writes it", () => {
  expect([formatOwn(1234.5, null), formatOwn(1234.5, "de-DE")]).toEqual(["1234.5", "1.234,5"]);
  expect([formatFigures(12100, 3, null), formatFigures(12100, 3, "de-DE")]).toEqual(["1.21e+4", "1,21e+4"]);
  expect(formatFigures(0.00000711, 3, "de-DE")).toBe("0,00000711");
});
