import { describe, expect, test } from "vitest";
import { METRIC_UNITS, US_UNITS } from "../../../../shared/units/unit-choice";
import { completeEntry, fromSiteFile, readEntries, toSiteFile } from "../../../../src/views/site-facts/entries";

describe("entries of the site facts", () => {
  test("a good entry becomes a fact in SI", () => {
    const { site, problems } = readEntries({ setPressure: "52 psi" });
    expect(site.setPressure?.value).toBeCloseTo(52 * 6894.757, 0); // NIST SP 811, App. B.8
    expect(problems.size).toBe(0);
  });
  test("one bad entry is named and the others stay usable", () => {
    const { site, problems } = readEntries({ setPressure: "52 gallons", tankVolume: "20 gal", "limits.band": "wide" });
    expect([...problems.keys()]).toEqual(["setPressure", "limits.band"]);
    expect(site.setPressure).toBeNull();
    expect(site.tankVolume?.value).toBeCloseTo(20 * 3.785412e-3, 6); // NIST SP 811, App. B.8
    expect(site.limits.band.from).toBe("assumed");
  });
  test("two entries that contradict each other: the one named is left out, the rest is used", () => {
    const { site, problems } = readEntries({ cutIn: "60 psi", cutOut: "40 psi", precharge: "34 psi" });
    expect(problems.get("cutIn")?.id).toBe("facts-disagree");
    expect(site.cutOut?.text).toBe("40 psi");
    expect(site.precharge?.text).toBe("34 psi");
  });
  test("blank entries are facts not known", () => {
    expect(readEntries({ precharge: "  " }).site.precharge).toBeNull();
    expect(toSiteFile({ precharge: "  ", setPressure: "" })).toEqual({});
  });
  test("a site file and its entries go there and back", () => {
    const entries = { setPressure: "52 psi", "limits.startsPerHour": "10", "limits.band": "3 psi" };
    expect(fromSiteFile(toSiteFile(entries))).toEqual(entries);
    expect(fromSiteFile({ limits: { startsPerHour: 10 } })).toEqual({ "limits.startsPerHour": "10" });
  });
  test("names that are no facts do not enter, whatever they are called", () => {
    expect(fromSiteFile(JSON.parse('{"__proto__": "1", "constructor": "2", "limits": {"toString": "3"}}'))).toEqual({});
    expect(fromSiteFile([1, 2])).toEqual({});
    expect(fromSiteFile(null)).toEqual({});
  });
});

describe("a bare number", () => {
  test("is taken in the unit the person reads in", () => {
    expect(completeEntry("setPressure", "52", US_UNITS)).toBe("52 psi");
    expect(completeEntry("setPressure", " 3,6 ", METRIC_UNITS)).toBe("3,6 bar");
    expect(completeEntry("pipeInsideDiameter", "1.25", US_UNITS)).toBe("1.25 in");
    expect(completeEntry("shortCycleLimit", "60", US_UNITS)).toBe("60 s");
  });
  test("with a unit, or where none is needed, stays as typed", () => {
    expect(completeEntry("setPressure", "3.6 bar", US_UNITS)).toBe("3.6 bar");
    expect(completeEntry("limits.startsPerHour", "10", US_UNITS)).toBe("10");
    expect(completeEntry("setPressure", "about 52", US_UNITS)).toBe("about 52");
    expect(completeEntry("name", "12", US_UNITS)).toBe("12");
  });
});
