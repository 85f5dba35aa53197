import { describe, expect, test } from "vitest";
import { detectAll } from "../../../analysis/detectors";
import { findFaults } from "../../../analysis/faults";
import { demandOf } from "../../../analysis/model/demand";
import { fitSite } from "../../../analysis/model/fit";
import { simulateSite } from "../../../analysis/model/simulate-site";
import type { SiteModel } from "../../../analysis/model/site-model";
import { shortRuns } from "../../../analysis/model/truth";
import { visitRecord } from "../../../analysis/model/visit-record";
import { whatIf } from "../../../analysis/model/what-if";
import { readChange, withChanges } from "../../../analysis/model/what-if/changes";
import { mostLikely } from "../../../analysis/model/what-if/predict";
import { judged, smallestChange } from "../../../analysis/model/what-if/search";
import { findSegments } from "../../../analysis/segments";
import type { Change } from "../../../shared/findings/what-if";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { driveOf } from "../../builders/model-sites";
import { AFTER, BEFORE, hillsideDraws, SAMPLE_VISITS } from "../../builders/sample-visits";

const SPAN = { from: 0, to: 43200 };
const DAY = 86400;
const facts = readSiteFacts(SAMPLE_VISITS[0].site, "site.json");

/** The low-charge sample site, one day, walked from record to fitted model. */
const before = prepared(BEFORE);
function prepared(site: SiteModel) {
  const visit = simulateSite(site, demandOf(hillsideDraws(1, 5), 60 * PSI), DAY, 5);
  const record = visitRecord(visit);
  const faults = findFaults(record);
  const segments = findSegments(record, faults, facts);
  const outcomes = detectAll({ record, faults, segments, site: facts });
  const fitted = fitSite(record, segments, outcomes, facts, faults);
  if (fitted === null) throw new Error("not fitted");
  return { visit, segments, outcomes, fitted };
}
const ask = (changes: readonly Change[], span = SPAN) => whatIf(before.fitted, facts, before.segments, before.outcomes, changes, span)!;
const TO_AFTER: readonly Change[] = [
  { id: "precharge", to: AFTER.tank.precharge },
  { id: "gain", to: driveOf(AFTER).gain / driveOf(BEFORE).gain },
  { id: "integral-time", to: driveOf(AFTER).integralTime },
  { id: "sleep-delay", to: driveOf(AFTER).sleepDelay },
];

describe("the model fitted to the sample with a lost charge", () => {
  test("explains most of the trace and gives the log's own measures back", () => {
    expect(before.fitted.explained).toBeGreaterThan(0.6);
    const { recorded, now } = ask([]);
    expect(now.measures["starts-per-hour"].value / recorded["starts-per-hour"]!).toBeGreaterThan(0.75);
    expect(now.measures["starts-per-hour"].value / recorded["starts-per-hour"]!).toBeLessThan(1.33);
    expect(Math.abs(now.measures["lowest-pressure"].value - recorded["lowest-pressure"]!)).toBeLessThan(6 * PSI);
  });
});

describe("what the repair is predicted to do, against the repaired site simulated by itself", () => {
  const repaired = simulateSite(
    { ...BEFORE, tank: AFTER.tank, control: { ...driveOf(AFTER), filter: driveOf(BEFORE).filter } },
    demandOf(hillsideDraws(1, 5), 60 * PSI),
    DAY,
    5,
  );
  const answer = ask(TO_AFTER, { from: 0, to: DAY });

  test("starts fall as they really do", () => {
    const real = repaired.truth.runs.length / 24;
    expect(before.visit.truth.runs.length / 24).toBeGreaterThan(1.8 * real);
    const { value, low, high } = answer.after.measures["starts-per-hour"];
    expect(low).toBeLessThan(real);
    expect(high).toBeGreaterThan(real);
    expect(value / real).toBeGreaterThan(0.7);
    expect(value / real).toBeLessThan(1.5);
  });
  test("short cycles go", () => {
    expect(shortRuns(repaired.truth, 60)).toBe(0);
    expect(answer.now.measures["short-cycles-per-hour"].value).toBeGreaterThan(4);
    expect(answer.after.measures["short-cycles-per-hour"].value).toBeLessThan(0.5);
  });
  test("the hunting goes", () => {
    expect(answer.now.measures["oscillation-peak-to-peak"].value).toBeGreaterThan(2 * PSI);
    expect(repaired.truth.oscillations).toEqual([]);
    expect(answer.now.measures["share-oscillating"].value).toBeGreaterThan(0.3);
    expect(answer.after.measures["share-oscillating"].value).toBeLessThan(0.02);
    expect(answer.after.measures["oscillation-peak-to-peak"].low).toBe(0);
  });
  test("each value lies within its own spread", () => {
    for (const m of Object.values(answer.after.measures)) {
      expect(m.low).toBeLessThanOrEqual(m.value);
      expect(m.value).toBeLessThanOrEqual(m.high);
    }
  });
});

describe("a change", () => {
  const { frame } = before.fitted;
  const values = mostLikely(before.fitted);
  test("is read as people write it, and refused with what was expected", () => {
    expect(readChange("precharge=38 psi")).toEqual({ id: "precharge", to: 38 * PSI });
    expect(readChange("gain = 50 %")).toEqual({ id: "gain", to: 0.5 });
    expect(readChange("leak=0")).toEqual({ id: "leak", to: 0 });
    expect(readChange("sleep-delay=1 min")).toEqual({ id: "sleep-delay", to: 60 });
    expect(readChange("precharge=38 gpm")).toMatchObject({ why: "wrong-value", expected: "gaugePressure" });
    expect(readChange("colour=red")).toMatchObject({ why: "unknown-id" });
    expect(readChange("precharge")).toMatchObject({ why: "not-id-and-value" });
  });
  test("of the charge keeps the volume (Boyle: K = p0 Vt), of the tank keeps the charge", () => {
    const charged = withChanges(frame, values, [{ id: "precharge", to: 3e5 }]).values;
    expect(charged["gas-constant"]).toBeCloseTo((3e5 + frame.atmosphere) * values["tank-volume"], 6);
    const larger = withChanges(frame, values, [{ id: "tank-volume", to: 2 * values["tank-volume"] }]).values;
    expect(larger["gas-constant"]).toBeCloseTo(2 * values["gas-constant"], 6);
  });
  test("a charge above the restart pressure is warned of, and a larger tank stores more", () => {
    expect(ask([{ id: "precharge", to: 55 * PSI }], { from: 0, to: 3600 }).warnings.map((w) => w.id)).toContain("precharge-above-restart");
    const larger = ask([{ id: "tank-volume", to: 2 * values["tank-volume"] }], { from: 0, to: 3600 });
    expect(larger.after.measures["stored-water"].value / larger.now.measures["stored-water"].value).toBeCloseTo(2, 6);
  });
});

describe("the pressure marked on the tank", () => {
  const marked = (psi: number) => readSiteFacts({ ...SAMPLE_VISITS[0].site, tankRatedPressure: `${psi} psi` }, "site.json");
  const warned = (psi: number, changes: readonly Change[], outcomes = before.outcomes) =>
    whatIf(before.fitted, marked(psi), before.segments, outcomes, changes, { from: 0, to: 7200 })!.warnings[0];
  const highest = ask([], { from: 0, to: 7200 }).now.measures["highest-pressure"].value;
  test("passed in the log comes before everything, whatever is asked", () => {
    const facts = marked(50);
    const record = visitRecord(before.visit);
    const outcomes = detectAll({ record, faults: findFaults(record), segments: before.segments, site: facts });
    expect(warned(50, [{ id: "precharge", to: 55 * PSI }], outcomes)).toMatchObject({ id: "over-marked-pressure", when: "recorded" });
  });
  test("passed by the model as the site stands, or only with the change, is told apart", () => {
    const none = before.outcomes.filter(({ kind }) => kind !== "over-marked-pressure");
    expect(warned(highest / PSI - 1, [], none)).toMatchObject({ when: "as-it-is" });
    const raised: Change = { id: "set-pressure", to: 75 * PSI };
    expect(warned(highest / PSI + 1, [raised], none)).toMatchObject({ when: "with-the-change" });
    expect(warned(1000, [raised], none)?.id).not.toBe("over-marked-pressure");
  });
  test("is a limit of the search like any other", () => {
    const measures = { ...smallestChange(before.fitted, facts, { from: 0, to: 7200 })!.measures, "highest-pressure": 101 * PSI };
    expect(judged(measures, facts.limits, 100 * PSI).broken).toContain("highest-pressure");
    expect(judged(measures, facts.limits, 102 * PSI).broken).not.toContain("highest-pressure");
  });
});

describe("the search", () => {
  test("proposes a change that meets the limits, and recharging is part of it or nothing cheaper did", () => {
    const proposal = smallestChange(before.fitted, facts, SPAN)!;
    expect(proposal.tried).toBeGreaterThan(1);
    if (proposal.changes !== null) expect(judged(proposal.measures, facts.limits).broken).toEqual([]);
    else expect(proposal.broken.length).toBeGreaterThan(0);
    expect(judged(proposal.measures, facts.limits).excess).toBeLessThan(1);
  });
});

describe("a record that is no pumped site under pressure", () => {
  test("near the pressure of the air the model says that it explains nothing, and does not break", () => {
    const low = readSiteFacts({ setPressure: "1 psi", flowMeter: "after-tank" }, "site.json");
    const { visit } = before;
    const record = visitRecord(visit);
    const vacuum = {
      ...record,
      channels: record.channels.map((c) => (c.role === "pressure" ? { ...c, values: c.values.map((v) => v - 60 * PSI) } : c)),
    };
    const faults = findFaults(vacuum);
    const segments = findSegments(vacuum, faults, low);
    const outcomes = detectAll({ record: vacuum, faults, segments, site: low });
    const fitted = fitSite(vacuum, segments, outcomes, low, faults);
    const answer = fitted === null ? null : whatIf(fitted, low, segments, outcomes, [{ id: "gain", to: 0.5 }], { from: 0, to: 3600 });
    expect(answer === null || answer.warnings.length > 0).toBe(true);
  });
});
