import { expect, test } from "vitest";
import { readScaledUnit } from "../../../shared/units/scaled-unit";

/** Pascal by NIST SP 811, App. B.8: 1 psi = 6,894.757 Pa, 1 bar = 100,000 Pa; litre per minute 1.666 667 E-05 m3/s. */
test.each([
  ["0.1 psi", 689.4757, null],
  ["0,1 bar", 1e4, null],
  ["1/10 L/min", 1.666667e-6, null],
  ["x0.01 bar", 1e3, null],
  ["bar/100", 1e3, null],
  ["10^-3 m³/s", 1e-3, null],
  ["10⁻³ m³/s", 1e-3, null],
  ["kPa x 10", 1e4, 100],
  ["mbar*10", 1e3, 10],
  ["x10 kPa", 1e4, 100],
  // a scale without a sign may be a sensor's range
  ["10 bar", 1e6, 1e5],
] as const)("a step of %s is %f SI, or %f", (text, factor, other) => {
  const found = readScaledUnit(text);
  expect(found?.unit.factor).toBeCloseTo(factor, factor < 1 ? 11 : 3);
  if (other === null) expect(found?.other).toBeNull();
  else expect(found?.other?.factor).toBeCloseTo(other, 6);
});

test.each(["bar", "16 bar", "1 bar", "0-10 bar", "4-20 mA", "x", "10", "10 s", "kPa x 0"])("%s has no scale", (text) => {
  expect(readScaledUnit(text)).toBeNull();
});
