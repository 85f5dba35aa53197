import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { analyse } from "../../analysis/analyse";
import { importLog } from "../../analysis/import/import-log";
import { NO_SITE_FACTS, readSiteFacts } from "../../shared/site/read-site-facts";
import { METRIC_UNITS, US_UNITS } from "../../shared/units/unit-choice";
import { logFile } from "../builders/log-file";
import { RULES, shownIn, type Walked } from "./walk";

const FOLDER = join(import.meta.dirname, "../../sample-data");
const VISITS = ["hillside-before", "hillside-after", "orchard-healthy"];
const DIALECTS = readdirSync(join(FOLDER, "dialects")).filter((name) => !name.endsWith(".md"));
const UNITS = [
  ["US", US_UNITS],
  ["metric", METRIC_UNITS],
] as const;

async function walked(path: string, site = NO_SITE_FACTS): Promise<Walked> {
  const bytes = Uint8Array.from(readFileSync(join(FOLDER, path)));
  const { record } = await importLog([logFile(bytes, path.replace(/.*\//, ""), 1 << 20)]);
  return { record, site, analysis: analyse(record, site) };
}
const visit = (name: string) =>
  walked(`visits/${name}.csv`, readSiteFacts(JSON.parse(readFileSync(join(FOLDER, "visits", `${name}.site.json`), "utf8")), "site.json"));

const visits = new Map(await Promise.all(VISITS.map(async (name) => [name, await visit(name)] as const)));

describe.each(VISITS.flatMap((name) => UNITS.map(([called, units]) => [name, called, units] as const)))(
  "%s in %s units",
  (name, _, units) => {
    const shown = shownIn(visits.get(name)!, units);
    test.each(Object.entries(RULES))("%s", (_rule, untraced) => {
      expect(untraced(shown)).toEqual([]);
    });
  },
);

/** A site of which everything is known, so that short samples are held against all that a finding, a step or a line may say. */
const WELL_KNOWN = readSiteFacts(
  {
    pump: "variable-speed",
    setPressure: "4 bar",
    restartPressure: "3.4 bar",
    tankVolume: "80 L",
    tankRatedPressure: "4.2 bar",
    precharge: "2.1 bar",
    pumpRatedFlow: "60 L/min",
    motorPower: "1.5 kW",
    pipeInsideDiameter: "26 mm",
  },
  "site",
);

describe.each([
  ["nothing", NO_SITE_FACTS],
  ["everything", WELL_KNOWN],
] as const)("every dialect sample, %s known of its site", (_, site) => {
  test.each(DIALECTS)("%s", async (file) => {
    const one = await walked(`dialects/${file}`, site);
    const wrong = UNITS.flatMap(([, units]) => {
      const shown = shownIn(one, units);
      return Object.values(RULES).flatMap((untraced) => untraced(shown));
    });
    expect(wrong).toEqual([]);
  });
});
