import { describe, expect, test } from "vitest";
import { tracking } from "../../../analysis/detectors/tracking";
import { findSteadyWindows } from "../../../analysis/segments/steady-flow";
import type { TrackingFinding } from "../../../shared/findings/finding";
import type { Segments } from "../../../shared/findings/segment";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { seconds } from "../../../shared/units/quantity";
import { alwaysRunning, evidenceOf, recordOf } from "../../builders/known-evidence";

const PSI = PASCAL_PER_PSI;
const FLOW = 1e-3;

/** Twelve steady draws of 100 s; pressure 55 psi less 2 psi per FLOW, with a dip of 9 psi for 5 s at the start of the fourth. */
const levels = [1, 2, 3, 1.5, 2.5, 0.5, 1, 2, 3, 1.5, 2.5, 0.5];
const flow = Float64Array.from({ length: 1200 }, (_, i) => FLOW * levels[Math.floor(i / 100)]);
const pressure = flow.map((q, i) => (55 - (2 * q) / FLOW) * PSI - (i >= 300 && i < 305 ? 9 * PSI : 0));

function findingWith(facts: object, segments: Partial<Segments> = {}): TrackingFinding {
  const record = recordOf({ pressure, flow, speed: flow });
  const pump = alwaysRunning(record);
  const outcome = tracking.detect(
    evidenceOf(record, { pump, steady: findSteadyWindows(record, [], pump), ...segments }, readSiteFacts(facts, "site")),
  );
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding;
}

describe("tracking of a given set pressure", () => {
  const draws: Segments["draw"] = {
    basis: "flow",
    draws: [{ from: seconds(300), to: seconds(400), complete: true, volume: null, peakFlow: null }],
    idle: [],
  };
  const finding = findingWith({ setPressure: "53 psi", limits: { band: "2 psi" } }, { draw: draws });
  test("mean error and share within the band are those of the drawing", () => {
    const mean = levels.reduce((sum, l) => sum + 55 - 2 * l - 53, 0) / 12 - (9 * 5) / 1200;
    expect(finding.meanError! / PSI).toBeCloseTo(mean, 3);
    expect(finding.shareWithinBand).toBeCloseTo((8 * 100 - 5) / 1200, 3);
  });
  test("the dip is found with its depth and its recovery", () => {
    expect(finding.worstDip!.at).toBe(300);
    expect(finding.worstDip!.depth / PSI).toBeCloseTo(53 - (55 - 3 - 9), 3);
    expect(finding.worstDip!.recovery).toBe(5);
  });
  test("pressure falls with flow by the drawn droop", () => {
    expect(finding.droop!.value / (PSI / FLOW)).toBeCloseTo(2, 3);
  });
  test("lowest and highest are of the whole record", () => {
    expect(finding.lowest / PSI).toBeCloseTo(43, 3);
    expect(finding.highest / PSI).toBeCloseTo(54, 3);
  });
});

describe("set pressure from the log", () => {
  test("is the one kept to most of the time, and said so", () => {
    const finding = findingWith({ limits: { band: "2 psi" } });
    expect(finding.setPressureFrom).toBe("log");
    expect(finding.setPressure! / PSI).toBeGreaterThan(49);
    expect(finding.setPressure! / PSI).toBeLessThan(53);
  });
  test("does not exist for a pump that only switches", () => {
    expect(findingWith({ pump: "fixed-speed" }).setPressure).toBeNull();
  });
});
