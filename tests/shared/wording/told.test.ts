import { describe, expect, test } from "vitest";
import { sayFaultNote } from "../../../shared/wording/fault-note";

/** Marks of decimals and groups, and the order of a date, as the Unicode CLDR gives them for these locales. */
describe("what the analysis tells is worded when it is shown", () => {
  test("its numbers are those of the reader", () => {
    const note = { kind: "no-rows", silence: 1234.5, usual: 0.5 } as const;
    expect(sayFaultNote(note, null)).toBe("no row for 1234.5 s where one comes every 0.5 s");
    expect(sayFaultNote(note, "de-DE")).toBe("no row for 1.234,5 s where one comes every 0,5 s");
    expect(sayFaultNote(note, "fr-FR")).toBe("no row for 1\u202f234,5 s where one comes every 0,5 s");
  });
  test("so are its dates", () => {
    const note = { kind: "leaps-to", at: Date.UTC(2024, 3, 3, 10, 15) / 1000, rows: 3, isRefused: true } as const;
    expect(sayFaultNote(note, null)).toBe("the clock leaps to 3 April 2024 10:15; 3 rows left out");
    expect(sayFaultNote(note, "de-DE")).toContain("3. April 2024 10:15");
    expect(sayFaultNote(note, "en-US")).toContain("April 3, 2024 10:15");
  });
});
