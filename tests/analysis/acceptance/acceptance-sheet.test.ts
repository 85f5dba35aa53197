import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { acceptanceSheet } from "../../../analysis/acceptance/acceptance-sheet";
import { atLeast, atMost, exactly, judge } from "../../../analysis/acceptance/judge";
import { analyse } from "../../../analysis/analyse";
import { importLog, NO_CHOICES } from "../../../analysis/import/import-log";
import { ACCEPTANCE_IDS } from "../../../shared/findings/acceptance";
import { withCompanyLimits } from "../../../shared/site/company-limits";
import { NO_SITE_FACTS, readSiteFacts } from "../../../shared/site/read-site-facts";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { US_UNITS } from "../../../shared/units/unit-choice";
import { sayLimit } from "../../../shared/wording/acceptance";
import { logFile } from "../../builders/log-file";
import { TOP } from "../../house/source-files";

const psi = (p: number) => p * PASCAL_PER_PSI;

async function sheetOf(visit: string, withSite = true) {
  const path = join(TOP, "sample-data", "visits", visit);
  const site = withSite ? readSiteFacts(JSON.parse(readFileSync(`${path}.site.json`, "utf8")), "site.json") : NO_SITE_FACTS;
  const { record } = await importLog([logFile(readFileSync(`${path}.csv`), "log.csv")], NO_CHOICES);
  return new Map(acceptanceSheet(record, analyse(record, site)).map((line) => [line.id, line]));
}

describe("a verdict follows limit and interval", () => {
  test("wholly inside is met, wholly outside is not met, between the two nobody can tell", () => {
    const limit = atMost(psi(3), "given");
    const measured = (value: number, half: number) => ({ value: psi(value), low: psi(value - half), high: psi(value + half) });
    expect(judge("oscillation", limit, measured(2, 0.5)).state).toBe("met");
    expect(judge("oscillation", limit, measured(5, 0.5)).state).toBe("not-met");
    expect(judge("oscillation", limit, measured(3.2, 0.5))).toMatchObject({
      state: "cannot-tell",
      wouldTell: "log-longer",
    });
    // An interval that reaches over the limit proves nothing, on whichever side its middle lies.
    expect(judge("oscillation", limit, measured(2.8, 0.5)).state).toBe("cannot-tell");
    const band = { low: psi(40), high: psi(45), from: "practice" } as const;
    expect(judge("precharge", band, { value: psi(50), low: psi(38), high: psi(60) }).state).toBe("cannot-tell");
    expect(judge("precharge", band, measured(50, 2)).state).toBe("not-met");
    expect(judge("tank-volume", atLeast(0.03, "practice"), exactly(0.02)).state).toBe("not-met");
  });
  test("a limit says where it comes from", () =>
    expect(sayLimit(atMost(psi(3), "assumed"), "pressureDifference", US_UNITS)).toBe("at most 3.0\u202fpsi (assumed)"));
});

describe("the sheet of a simulated site agrees with its truth (sample-data/README.md)", () => {
  test("before the repair: short cycles not met", async () => {
    const sheet = await sheetOf("hillside-before");
    expect([...sheet.keys()]).toEqual([...ACCEPTANCE_IDS]);
    expect(sheet.get("short-cycles")?.state).toBe("not-met");
    expect(sheet.get("starts-per-hour")?.state).toBe("not-met");
    // 43 psi were read, 3 psi are left in truth: the gas at work decides.
    expect(sheet.get("precharge")?.state).toBe("not-met");
    expect(sheet.get("precharge")!.measured!.value / PASCAL_PER_PSI).toBeCloseTo(3, -0.5);
  });
  test("a healthy site: no short cycles, no hunting, no drift, tank and sensor as they should be", async () => {
    const sheet = await sheetOf("orchard-healthy");
    for (const id of ["short-cycles", "drift", "tank-volume", "precharge", "sensor-distance", "marked-pressure"] as const) {
      expect([id, sheet.get(id)?.state]).toEqual([id, "met"]);
    }
    expect(sheet.get("oscillation")?.state).not.toBe("not-met");
    expect(sheet.get("leak-down")?.state).not.toBe("not-met");
  });
  test("a dip down to where a resting drive starts again is meant; limits of the company decide where the site has none", async () => {
    const path = join(TOP, "sample-data", "visits", "orchard-healthy");
    const { record } = await importLog([logFile(readFileSync(`${path}.csv`), "log.csv")], NO_CHOICES);
    const site = readSiteFacts(JSON.parse(readFileSync(`${path}.site.json`, "utf8")), "site.json");
    const lines = (facts: typeof site) => new Map(acceptanceSheet(record, analyse(record, facts)).map((line) => [line.id, line]));
    // Set pressure 50 psi, restart 44 psi, band 3 psi either side.
    const dip = lines(site).get("worst-dip");
    expect(dip).toMatchObject({ state: "met", limit: { from: "practice" } });
    expect(dip!.limit!.high! / PASCAL_PER_PSI).toBeCloseTo(12, 6);
    const sheet = lines(withCompanyLimits(site, { "limits.worstDip": "2 psi", "limits.sensorToTank": "1 ft" }));
    expect(sheet.get("worst-dip")).toMatchObject({ state: "not-met", limit: { from: "company" } });
    expect(sheet.get("sensor-distance")).toMatchObject({ state: "not-met", limit: { from: "company" } });
  });
  test("without site facts the sheet asks for them and judges nothing by a typical value", async () => {
    const sheet = await sheetOf("orchard-healthy", false);
    expect(sheet.get("tank-volume")).toMatchObject({ state: "cannot-tell", wouldTell: "give-pump-flow" });
    expect(sheet.get("marked-pressure")).toMatchObject({ state: "cannot-tell", wouldTell: "give-marked-pressure" });
    expect(sheet.get("sensor-distance")).toMatchObject({ state: "cannot-tell", wouldTell: "give-sensor-distance" });
  });
});

describe("the share within the band has an interval by blocks", () => {
  test("that holds the share, is wide where hours differ, and is not met only where all of it lies below the limit", async () => {
    const after = (await sheetOf("hillside-after")).get("within-band")!;
    const before = (await sheetOf("hillside-before")).get("within-band")!;
    for (const { measured } of [after, before]) {
      expect(measured!.low).toBeLessThan(measured!.value);
      expect(measured!.high).toBeGreaterThan(measured!.value);
      expect(measured!.high).toBeLessThanOrEqual(1);
    }
    expect([before.state, before.measured!.high < 0.95]).toEqual(["not-met", true]);
  });
});
