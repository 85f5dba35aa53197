import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { analyse } from "../../../analysis/analyse";
import { importLog, NO_CHOICES } from "../../../analysis/import/import-log";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { logFile } from "../../builders/log-file";
import { TOP } from "../../house/source-files";

/** Simulated visits whose truth is known (sample-data/README.md): what was put into them must stand first. */
async function causesOf(visit: string) {
  const path = join(TOP, "sample-data", "visits", visit);
  const site = readSiteFacts(JSON.parse(readFileSync(`${path}.site.json`, "utf8")), "site.json");
  const { record } = await importLog([logFile(readFileSync(`${path}.csv`), "log.csv")], NO_CHOICES);
  return analyse(record, site).causes;
}

test("the healthy site is called healthy", async () => {
  const [first] = await causesOf("orchard-healthy");
  expect(first.id).toBe("healthy");
  expect(first.confidence).toBeGreaterThan(0.5);
});

test("the tank that lost its charge is told before the repair, and no more after it", async () => {
  const [before, after] = [await causesOf("hillside-before"), await causesOf("hillside-after")];
  expect(before[0].id).toBe("precharge-low");
  expect(before[0].confidence).toBeGreaterThan(0.5);
  expect(after.find((c) => c.id === "precharge-low")?.confidence).toBeLessThan(0.1);
});
