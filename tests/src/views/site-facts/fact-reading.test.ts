import { expect, test } from "vitest";
import { METRIC_UNITS, US_UNITS } from "../../../../shared/units/unit-choice";
import { entriesOfFile, readEntries } from "../../../../src/views/site-facts/entries";
import { factReading } from "../../../../src/views/site-facts/fact-reading";
import { readFactFile } from "../../../../src/views/site-facts/read-fact-file";

const site = (entries: Parameters<typeof readEntries>[0]) => readEntries(entries).site;

test("a value written in other units is said in the reader's", () => {
  expect(factReading("setPressure", site({ setPressure: "3.5 bar" }), US_UNITS)).toBe("That is 50.8\u202fpsi."); // 3.5e5 / 6894.757
  expect(factReading("tankVolume", site({ tankVolume: "20 gal" }), METRIC_UNITS)).toBe("That is 75.7\u202fL."); // 20 * 3.785412
});
test("a value written in the reader's own units is not said twice", () => {
  expect(factReading("setPressure", site({ setPressure: "52 psi" }), US_UNITS)).toBeNull();
  expect(factReading("tankVolume", site({ tankVolume: "20gal" }), US_UNITS)).toBeNull();
});
test("what is assumed is said to be assumed", () => {
  expect(factReading("shortCycleLimit", site({}), US_UNITS)).toBe("60\u202fs is assumed while nothing is entered.");
  expect(factReading("limits.band", site({}), US_UNITS)).toContain("is assumed");
});
test("a fact not known has no reading", () => {
  expect(factReading("precharge", site({}), US_UNITS)).toBeNull();
});
test("a site file is taken whole or refused with a sentence", () => {
  const readSiteFile = (text: string) => readFactFile(text, "site.json", entriesOfFile);
  expect(readSiteFile('{"setPressure":"52 psi"}')).toEqual({ read: { setPressure: "52 psi" }, refusal: null });
  expect(readSiteFile('{"setPressure":"52"}').refusal).toContain("setPressure");
  expect(readSiteFile("not json").refusal).toContain("not valid JSON");
});
