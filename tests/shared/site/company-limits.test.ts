import { describe, expect, test } from "vitest";
import { SiteFileError } from "../../../shared/problems/site-file-problem";
import { readCompanyLimits, withCompanyLimits, writeCompanyLimits } from "../../../shared/site/company-limits";
import { readSiteFacts } from "../../../shared/site/read-site-facts";

const LIMITS = { shortCycleLimit: "90 s", "limits.band": "0.2 bar", "limits.shareWithinBand": "98 %", "limits.startsPerHour": "8" };

describe("limits of a company", () => {
  test("go into a file and come back as they were", () =>
    expect(readCompanyLimits(JSON.parse(writeCompanyLimits(LIMITS)), "limits.json")).toEqual(LIMITS));
  test("hold where the site gives none of its own, and are marked so", () => {
    const site = withCompanyLimits(readSiteFacts({ limits: { band: "2 psi" } }, ""), LIMITS);
    expect(site.shortCycleLimit).toMatchObject({ value: 90, from: "company", text: "90 s" });
    expect(site.limits.band).toMatchObject({ from: "given", text: "2 psi" });
    expect(site.limits.shareWithinBand).toMatchObject({ value: 0.98, from: "company" });
    expect(site.limits.startsPerHour).toMatchObject({ value: 8, from: "company" });
    expect(site.limits.driftAtSteadyFlow.from).toBe("assumed");
  });
  test.each([
    [{ limits: {} }, "not-limits"],
    [{ format: "evenhead-limits", version: 9, limits: {} }, "not-limits"],
    [null, "not-limits"],
    [{ format: "evenhead-limits", version: 1, limits: { band: "wide" } }, "wrong-value"],
    [{ format: "evenhead-limits", version: 1, limits: { colour: "red" } }, "unknown-fact"],
  ])("%j is refused: %s", (file, id) => {
    const read = () => readCompanyLimits(file, "limits.json");
    expect(read).toThrow(SiteFileError);
    expect(read).toThrow(id);
  });
});
