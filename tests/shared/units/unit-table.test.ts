import { describe, expect, test } from "vitest";
import { findUnit, fromSI, toSI, UNITS } from "../../../shared/units/unit-table";

const one = (name: string) => {
  const unit = findUnit(name);
  if (unit === null) throw new Error(`no unit ${name}`);
  return unit;
};

describe("units", () => {
  // NIST SP 811 (2008), App. B.8, rounded as printed there; tolerance half a unit of the last printed digit
  test.each([
    ["psi", 6894.757, 5e-4],
    ["bar", 1e5, 0],
    ["mbar", 100, 0],
    ["kgf/cm2", 98066.5, 0],
    ["ftH2O", 2989.067, 5e-4],
    ["inH2O", 249.0889, 5e-5],
    ["cmH2O", 98.0665, 0],
    ["mmH2O", 9.80665, 0],
    ["inHg", 3386.389, 5e-4],
    ["mmHg", 133.3224, 5e-5],
    ["torr", 133.3224, 5e-5],
    ["atm", 101325, 0],
    ["gal/min", 6.30902e-5, 5e-12],
    ["L/min", 1.666667e-5, 5e-12],
    ["cfs", 2.831685e-2, 5e-9],
    ["cfm", 4.719474e-4, 5e-11],
    ["gal", 3.785412e-3, 5e-10],
    ["imp gal", 4.54609e-3, 0],
    ["ft3", 2.831685e-2, 5e-9],
    ["hp", 745.6999, 5e-5],
    ["PS", 735.4988, 5e-5],
    ["ft", 0.3048, 0],
    ["in", 0.0254, 0],
  ])("one %s is %d in SI, as NIST SP 811 prints it", (name, factor, within) => {
    expect(Math.abs(one(name).factor - factor)).toBeLessThanOrEqual(within);
  });

  // NIST SP 811 (2008), App. B.8: t/C = (t/F - 32) / 1.8; T/K = t/C + 273.15
  test("68 °F is 20 °C is 293.15 K", () => {
    expect(toSI(68, one("°F"))).toBeCloseTo(293.15, 9);
    expect(fromSI(293.15, one("°C"))).toBeCloseTo(20, 9);
  });

  test("every unit goes to SI and back", () => {
    for (const unit of UNITS) for (const value of [-40, 0, 0.001, 52.3, 1e6]) expect(fromSI(toSI(value, unit), unit)).toBeCloseTo(value, 6);
  });

  test("every name is claimed once", () => {
    const claims = new Map<string, string[]>();
    for (const unit of UNITS)
      for (const name of new Set([unit.symbol, ...unit.aliases])) claims.set(name, [...(claims.get(name) ?? []), unit.symbol]);
    expect([...claims].filter(([, by]) => by.length > 1)).toEqual([]);
    for (const unit of UNITS) expect(new Set([unit.symbol, ...unit.aliases]).size).toBe(unit.aliases.length + 1);
  });

  test("a name in the wrong case is taken where one unit answers, refused where two would", () => {
    expect(findUnit("PSIG")?.symbol).toBe("psig");
    expect(findUnit("Litres Per Minute")?.symbol).toBe("L/min");
    expect(findUnit("ML")?.symbol).toBe("ML");
    expect(findUnit("mL")?.symbol).toBe("mL");
    expect(findUnit("__proto__")).toBeNull();
  });

  test.each([
    ["gpm", "gpm"],
    ["imperial gallons per minute", "imp gpm"],
    ["l/Std", "L/h"],
    ["m.c.a.", "mH2O"],
    ["m WS", "mH2O"],
    ["tr/min", "rpm"],
    ["U/min", "rpm"],
    ["bar ü", "barg"],
  ])("%s is %s", (name, symbol) => expect(findUnit(name)?.symbol).toBe(symbol));
});
