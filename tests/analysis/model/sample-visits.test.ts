import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { shortRuns } from "../../../analysis/model/truth";
import { visitCsv } from "../../../analysis/model/visit-csv";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { SAMPLE_VISITS } from "../../builders/sample-visits";
import { truthInWords } from "../../builders/truth-in-words";

const file = (name: string) => readFileSync(join(import.meta.dirname, "../../../sample-data/visits", name), "utf8");
const visits = new Map(SAMPLE_VISITS.map((sample) => [sample.name, sample.visit()]));
const truthOf = (name: string) => visits.get(name)!.truth;
const longSwings = (name: string) => truthOf(name).oscillations.filter((swing) => swing.to - swing.from >= 60);

describe("the sample visits", () => {
  for (const sample of SAMPLE_VISITS) {
    test(`${sample.name} stands as the script writes it (else: npm run samples)`, () => {
      expect(visitCsv(visits.get(sample.name)!) === file(`${sample.name}.csv`)).toBe(true);
      expect(JSON.parse(file(`${sample.name}.truth.json`))).toEqual(truthInWords(visits.get(sample.name)!));
      expect(JSON.parse(file(`${sample.name}.site.json`))).toEqual(sample.site);
    });
    test(`${sample.name} has a site file that can be read`, () => {
      const facts = readSiteFacts(sample.site, `${sample.name}.site.json`);
      expect(facts.setPressure!.value).toBeGreaterThan(40 * PSI);
      expect(facts.limits.driftAtSteadyFlow.value).toBeCloseTo(5 * PSI, 6);
    });
  }

  test("before: short cycles at night, hunting in the evening, drift at steady draw", () => {
    const evening = longSwings("hillside-before").filter((swing) => (swing.from % 86400) / 3600 >= 18.4);
    expect(shortRuns(truthOf("hillside-before"), 60)).toBeGreaterThan(300);
    expect(evening.length).toBeGreaterThan(3);
    expect(truthOf("hillside-before").steady.filter((window) => Math.abs(window.change) > 5 * PSI).length).toBeGreaterThan(2);
  });

  test("after: none of them", () => {
    expect(shortRuns(truthOf("hillside-after"), 60)).toBe(0);
    expect(longSwings("hillside-after").every((swing) => swing.peakToPeak < PSI)).toBe(true);
    expect(truthOf("hillside-after").steady.some((window) => Math.abs(window.change) > 5 * PSI)).toBe(false);
  });

  test("healthy: nothing", () => {
    expect(shortRuns(truthOf("orchard-healthy"), 60)).toBe(0);
    expect(truthOf("orchard-healthy").oscillations).toEqual([]);
  });
});
