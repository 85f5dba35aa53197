import fc from "fast-check";
import Papa from "papaparse";
import { expect, test } from "vitest";
import { csvCell } from "../../../shared/record/csv-cell";

test.each(["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0", "-2+3", "+HYPERLINK(0)"])(
  "%j does not begin as a formula (OWASP, CSV Injection)",
  (text) => expect(csvCell(text).replace(/^"/, "")).toMatch(/^'/),
);
test("what is no formula is left as it is", () => {
  for (const text of ["", "Pressure", "1.5", "a=b", "'quoted", "é", "5-3"]) expect(csvCell(text)).toBe(text);
});
test("any text comes back from another reader of CSV (papaparse), behind its guard where it has one", () =>
  fc.assert(
    fc.property(fc.array(fc.string({ unit: "binary" }), { minLength: 2, maxLength: 5 }), (cells) => {
      const guarded = cells.map((text) => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text));
      expect(Papa.parse<string[]>(cells.map(csvCell).join(","), { delimiter: ",", newline: "\r\n" }).data[0]).toEqual(guarded);
    }),
  ));
