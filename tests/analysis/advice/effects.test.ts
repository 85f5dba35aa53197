import { describe, expect, test } from "vitest";
import { changesOfStep } from "../../../analysis/advice/changes-of-step";
import { withEffectsInSteps } from "../../../analysis/advice/effects";
import { analyse } from "../../../analysis/analyse";
import { demandOf } from "../../../analysis/model/demand";
import { fitSite } from "../../../analysis/model/fit";
import { simulateSite } from "../../../analysis/model/simulate-site";
import { visitRecord } from "../../../analysis/model/visit-record";
import { atOneGo } from "../../../analysis/numerics/at-one-go";
import type { Advice } from "../../../shared/findings/advice";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { US_UNITS } from "../../../shared/units/unit-choice";
import { sayAdvice } from "../../../shared/wording/advice";
import { BEFORE, hillsideDraws, SAMPLE_VISITS } from "../../builders/sample-visits";

const DAY = 86_400;
const demand = demandOf(hillsideDraws(1, 9), 60 * PSI);
const site = readSiteFacts(SAMPLE_VISITS[0].site, "site.json");
const record = visitRecord(simulateSite(BEFORE, demand, DAY, 9));
const analysis = analyse(record, site);
const fitted = fitSite(record, analysis.segments, analysis.outcomes, site, analysis.faults)!;
const told = atOneGo(withEffectsInSteps(analysis, fitted));
/** The same site with another charge, really simulated with the same draw. */
const charged = (precharge: number) => simulateSite({ ...BEFORE, tank: { ...BEFORE.tank, precharge } }, demand, DAY, 9).truth;

describe("a lost charge put back, by the model and really simulated", () => {
  const { effect } = told.find(({ id }) => id === "raise-precharge")!;
  const [change] = effect!.changes;
  const truth = charged(change.to);

  test("the higher setting that practice asks for empties the tank before this slow drive has caught up, and so it does", () => {
    expect(effect!.warnings[0]).toMatchObject({ id: "tank-runs-empty" });
    expect(charged(45 * PSI).lowestPressure).toBeLessThan(30 * PSI);
  });
  test("the charge it is run with instead does not, and lies within 20 psi below the set pressure", () => {
    expect(change.to).toBeLessThan(45 * PSI);
    expect(change.to).toBeGreaterThanOrEqual(40 * PSI - 1);
    expect(truth.lowestPressure).toBeGreaterThan(change.to - 2 * PSI);
    expect(Math.abs(effect!.after["lowest-pressure"].value - truth.lowestPressure)).toBeLessThan(4 * PSI);
  });
  test("the starts fall by about what they really fall", () => {
    const real = truth.runs.length / charged(BEFORE.tank.precharge).runs.length;
    const predicted = effect!.after["starts-per-hour"].value / effect!.now["starts-per-hour"].value;
    expect(real).toBeLessThan(0.8);
    expect(Math.abs(predicted / real - 1)).toBeLessThan(0.3);
  });
  test("the water it holds is told beside it", () => {
    expect(sayAdvice(told.find(({ id }) => id === "raise-precharge")!, US_UNITS).expect).toMatch(
      /By the model fitted .* water the tank gives/,
    );
  });
});

describe("pressure above the tank's mark that only the model shows", () => {
  const marked = readSiteFacts({ ...SAMPLE_VISITS[0].site, tankRatedPressure: "70 psi" }, "site.json");
  const quiet = { ...analysis, site: marked, outcomes: [] };
  test("comes before everything, once, and says where it is from", () => {
    const steps = atOneGo(withEffectsInSteps(quiet, fitted));
    expect(steps[0].id).toBe("stop-over-marked-pressure");
    expect(steps[0].amounts[0].inputs[0]).toMatchObject({ name: "highest", from: "model" });
    const again = atOneGo(withEffectsInSteps({ ...quiet, advice: steps }, fitted));
    expect(again.filter(({ id }) => id === "stop-over-marked-pressure")).toHaveLength(1);
  });
});

describe("what a step changes in the model", () => {
  const step = (id: Advice["id"], amounts: Advice["amounts"] = [], trust: Advice["trust"] = null) =>
    changesOfStep({ ...analysis.advice[0], id, amounts, trust }, 20);
  const volume = (id: "tank-volume-by-practice" | "tank-volume-by-starts", to: number) =>
    ({ id, quantity: "volume", basis: "physics", low: to, high: to, inputs: [] }) as const;
  const volumes = [volume("tank-volume-by-practice", 0.03), volume("tank-volume-by-starts", 0.2)];

  test("looking and measuring change nothing", () => {
    expect(step("check-precharge")).toEqual([]);
    expect(step("log-more")).toEqual([]);
  });
  test("a tank is as large as the amount that is trusted: practice with a drive, physics with a switch", () => {
    expect(step("larger-tank", volumes, { id: "volume-drive", numbers: {} })).toEqual([[{ id: "tank-volume", to: 0.03 }]]);
    expect(step("larger-tank", volumes, { id: "volume-switch", numbers: {} })).toEqual([[{ id: "tank-volume", to: 0.2 }]]);
  });
  test("a leak is mended, a delay lengthened by what a run lacks", () => {
    expect(step("find-leak")).toEqual([[{ id: "leak", to: 0 }]]);
    const missing = { id: "sleep-delay-by-run-time", quantity: "time", basis: "physics", low: 25, high: 25, inputs: [] } as const;
    expect(step("lengthen-sleep-delay", [missing])).toEqual([[{ id: "sleep-delay", to: 45 }]]);
  });
});
