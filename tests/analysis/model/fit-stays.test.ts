import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { detectAll } from "../../../analysis/detectors";
import { findFaults } from "../../../analysis/faults";
import { importLog, NO_CHOICES } from "../../../analysis/import/import-log";
import { fitSite } from "../../../analysis/model/fit";
import { findSegments } from "../../../analysis/segments";
import { inGauge } from "../../../shared/record/in-gauge";
import type { LogRecord } from "../../../shared/record/log-record";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { logFile } from "../../builders/log-file";
import { TOP } from "../../house/source-files";

/** The simulated visit whose drive has an integral time of 150 s (its truth file), much longer than the shapes of runs that it is read from. */
const path = join(TOP, "sample-data", "visits", "hillside-before");
const site = readSiteFacts(JSON.parse(readFileSync(`${path}.site.json`, "utf8")), "site.json");
const truth: { readonly integralTimeS: number } = JSON.parse(readFileSync(`${path}.truth.json`, "utf8"));

function integralTime(raw: LogRecord, meter: number) {
  const gauge = inGauge(raw, site.atmosphere.value);
  const channels = gauge.channels.map((c) => (c.role === "flow" ? { ...c, values: c.values.map((q) => q * meter) } : c));
  const record = { ...gauge, channels };
  const faults = findFaults(record);
  const segments = findSegments(record, faults, site);
  return fitSite(record, segments, detectAll({ record, faults, segments, site }), site, faults)!.parameters["integral-time"];
}

test("a meter that is off by a ten-thousandth moves what is badly fixed, never out of its interval", async () => {
  const { record } = await importLog([logFile(readFileSync(`${path}.csv`), "log.csv")], NO_CHOICES);
  const [one, other] = [1, 1.0001].map((meter) => integralTime(record, meter));
  for (const { low, high } of [one, other])
    for (const value of [truth.integralTimeS, one.value, other.value]) {
      expect(value).toBeGreaterThan(low);
      expect(value).toBeLessThan(high);
    }
});
