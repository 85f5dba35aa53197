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
const aText = fc.oneof(
  fc.string({ unit: "binary" }),
  fc.string({ unit: fc.constantFrom(..."=+-@;,\t\r\n\"' a1") }),
  fc.string({ unit: fc.constantFrom(...'=;"a') }),
);
test("no piece begins as a formula where another country's spreadsheet ends cells at semicolons, or at tabs", () => {
  expect(csvCell("Pressure;=cmd|' /C calc'!A0")).toBe("Pressure;'=cmd|' /C calc'!A0");
  expect(csvCell("bar; -1 to 9")).toBe("bar; -1 to 9");
  fc.assert(
    fc.property(aText, (text) => {
      for (const piece of csvCell(text).split(/[;\t\r\n]/)) expect(piece).not.toMatch(/^"{0,2}[=+@-]/);
    }),
  );
});
test("a cell of nothing but quotes takes as long as any other of its length", () => {
  const began = process.cpuUsage();
  expect(csvCell('"'.repeat(200_000))).toHaveLength(400_002);
  expect(process.cpuUsage(began).user / 1e6).toBeLessThan(2);
});
test("any text comes back from another reader of CSV (papaparse), but for the guards put in", () =>
  fc.assert(
    fc.property(fc.array(aText, { minLength: 2, maxLength: 5 }), (cells) => {
      const unguarded = (all: readonly string[]) => all.map((text) => text.replaceAll("'", ""));
      const back = Papa.parse<string[]>(cells.map(csvCell).join(","), { delimiter: ",", newline: "\r\n" }).data[0];
      expect(unguarded(back)).toEqual(unguarded(cells));
      for (const [i, text] of back.entries()) if (!/(^|[;\t\r\n])"?[=+\-@\t\r]/.test(cells[i])) expect(text).toBe(cells[i]);
    }),
  ));
