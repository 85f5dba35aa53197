import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findNumberFormat } from "../../../analysis/import/find-number-format";
import { isMissing, type NumberFormat, parseNumber } from "../../../analysis/import/number-format";
import type { Separator } from "../../../analysis/import/row-cells";
import { UNITS } from "../../../shared/units/unit-table";

const point: NumberFormat = { decimal: ".", thousands: "," };
const comma: NumberFormat = { decimal: ",", thousands: "." };

describe("a cell is the number a person reads", () => {
  test.each([
    ["52.3", point, 52.3],
    ["+52.3", point, 52.3],
    ["5.23E+01", point, 52.3],
    ["5.23D+01", point, 52.3],
    // scientific notation has one digit before its mark, so nothing is grouped; common practice, no source
    ["3,008E+00", point, 3.008],
    ["3.008E+00", comma, 3.008],
    [".5", point, 0.5],
    ["0x1F", point, 31],
    ["1,234.5", point, 1234.5],
    ["1.234,5", comma, 1234.5],
    ["52,3", comma, 52.3],
    ["52.3 psi", point, 52.3],
    ["12.5gpm", point, 12.5],
    ["1,234.5", { decimal: ".", thousands: null }, 1234.5],
    ["(0.3)", point, -0.3],
    ["1'234.5", { decimal: ".", thousands: "'" }, 1234.5],
    ["1\u00a0234,5", { decimal: ",", thousands: " " }, 1234.5],
  ] as const)("%s", (text, format, value) => {
    expect(parseNumber(text, format)).toBe(value);
  });

  test.each(["4.x", "12-5", "1,23.4", "1.2.3", "12:30", "5 apples", "--5", "1,2345", "Infinity", "NaN"])("%s is none", (text) => {
    expect(parseNumber(text, point)).toBeNaN();
  });
});

test("a number with a decimal comma is what Number() makes of it with a point", () => {
  const digits = fc.stringMatching(/^\d{1,28}$/);
  fc.assert(
    fc.property(fc.constantFrom("", "+", "-"), digits, fc.option(digits), (sign, whole, fraction) => {
      const [written, plain] = [",", "."].map((mark) => `${sign}${whole}${fraction === null ? "" : `${mark}${fraction}`}`);
      expect(parseNumber(written, { decimal: ",", thousands: null })).toBe(Number(plain));
      expect(parseNumber(plain, { decimal: ".", thousands: null })).toBe(Number(plain));
    }),
  );
});

test("no name of a unit begins as the rest of a date or of a time does", () => {
  const names = UNITS.flatMap(({ symbol, aliases }) => [symbol, ...aliases]);
  expect(names.filter((name) => /^[-:/]\d/.test(name))).toEqual([]);
});

test("marks of a missing value are known in any case", () => {
  expect(["", "NaN", "---", "#N/A", "null", "OL", "Over", "ERR", "n/a", "1.#QNAN"].filter((mark) => !isMissing(mark))).toEqual([]);
  expect(["0", "-9999", "ok", "52"].filter(isMissing)).toEqual([]);
});

describe("decimal and thousands mark", () => {
  const semicolon: Separator = { kind: "character", character: ";" };
  const tab: Separator = { kind: "character", character: "\t" };
  const find = (cells: string[], separator = semicolon, plausible = (_: NumberFormat) => true) =>
    findNumberFormat([cells], separator, undefined, plausible);

  test.each([
    ["a mark not followed by three digits is decimal", ["52,3", "1,2345"], ","],
    ["a mark twice in a number groups", ["1,234,567", "2,345,678"], "."],
    ["of two marks the last is decimal", ["1.234,5", "2.345,6"], ","],
    ["a zero before the mark cannot be a group", ["0,512", "0,498"], ","],
    ["four digits before the mark cannot be a group", ["1234,567"], ","],
    ["bare numbers below a thousand beside marked ones show groups", ["950", "998", "1,002", "1,010"], "."],
    ["a point with three digits is decimal", ["4.123", "5.234"], "."],
  ])("%s", (_, cells, decimal) => {
    expect(find(cells)).toMatchObject({ format: { decimal }, question: null });
  });

  test("a comma with three digits everywhere is asked, with the decimal comma proposed", () => {
    expect(find(["4,123", "5,234"]).question).toMatchObject({ id: "decimal", options: [",", "."], assumed: "," });
    expect(find(["4,123", "5,234"], tab).question).not.toBeNull();
  });

  test("it is not asked where only one reading gives values that a water system has", () => {
    expect(find(["4,123", "5,234"], semicolon, ({ decimal }) => decimal === ",")).toMatchObject({
      format: { decimal: "," },
      question: null,
    });
  });
});
