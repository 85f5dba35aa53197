import { describe, expect, test } from "vitest";
import type { Clock } from "../../../../shared/record/clock";
import { METRIC_UNITS, US_UNITS } from "../../../../shared/units/unit-choice";
import { byWeight, cannotShow, clearQuestions, storyLines } from "../../../../src/views/findings/story-lines";
import {
  analysisOf,
  drift,
  found,
  oscillation,
  overMarked,
  quietSensor,
  shortCycles,
  span,
  unlimitedStarts,
} from "../../../builders/findings";

const clock: Clock = { kind: "absolute", epoch: Date.UTC(2024, 4, 3, 8) / 1000, zone: null };

describe("the story of the findings", () => {
  test("safety comes first, then what breaks a limit, then the rest", () => {
    const analysis = analysisOf([found(oscillation(1)), found(drift), found(shortCycles), found(overMarked)]);
    expect(storyLines(analysis, clock, US_UNITS).map((line) => line.finding.kind)).toEqual([
      "over-marked-pressure",
      "short-cycles",
      "drift",
      "oscillation",
    ]);
  });
  test("what keeps its limit stands aside, and so does background that breaks none", () => {
    const analysis = analysisOf([found(oscillation(1)), found(drift), found(quietSensor), found(unlimitedStarts)]);
    const { over, open, aside } = byWeight(storyLines(analysis, clock, US_UNITS));
    const kinds = (lines: typeof over) => lines.map((line) => line.finding.kind);
    expect([over, open, aside].map(kinds)).toEqual([["drift"], ["cycling"], ["oscillation", "sensor"]]);
  });
  test("a sensor that stood still is told at once", () => {
    const analysis = analysisOf([found({ ...quietSensor, stuck: [span(0, 600)] })]);
    expect(byWeight(storyLines(analysis, clock, US_UNITS)).over).toHaveLength(1);
  });
  test("an oscillation is held against the limit of the site facts", () => {
    const kinds = (limit: string) =>
      storyLines(analysisOf([found(oscillation(4))], { limits: { oscillationPeakToPeak: limit } }), clock, US_UNITS)[0].overLimit;
    expect(kinds("3 psi")).toBe(true);
    expect(kinds("5 psi")).toBe(false);
  });
  test("a finding names the fact that would sharpen it until it is given", () => {
    const [before] = storyLines(analysisOf([found(oscillation(4))]), clock, US_UNITS);
    expect(before.sharpen?.fact).toBe("sensorToTank");
    const [after] = storyLines(
      analysisOf([found(oscillation(4))], { sensorToTank: "8 ft", pipeInsideDiameter: "1.25 in" }),
      clock,
      US_UNITS,
    );
    expect(after.sharpen).toBeNull();
  });
  test("numbers follow the units of the reader", () => {
    const [us] = storyLines(analysisOf([found(overMarked)]), clock, US_UNITS);
    const [metric] = storyLines(analysisOf([found(overMarked)]), clock, METRIC_UNITS);
    expect(us.title).toContain("131\u202fpsi");
    expect(metric.title).toContain("9.03\u202fbar"); // 131 psi x 6894.757 Pa, NIST SP 811
  });
});

describe("the calculation under a finding", () => {
  test("puts in the site's own numbers and says where each comes from", () => {
    const [line] = storyLines(analysisOf([found(overMarked)], { tankRatedPressure: "125 psi" }), clock, US_UNITS);
    expect(line.calculation.lines).toContainEqual({ what: "Marked on the tank", value: "125\u202fpsi", from: "given" });
    expect(line.calculation.lines).toContainEqual({ what: "Above the mark by", value: "6.00\u202fpsi", from: "worked out" });
  });
  test("lists drift windows, largest change first, with what was not logged said so", () => {
    const [line] = storyLines(analysisOf([found(drift)]), clock, US_UNITS);
    expect(line.calculation.table?.rows.map((row) => row.slice(2))).toEqual([
      ["15.9\u202fgpm", "\u22126.2\u202fpsi (\u22126.8 to \u22125.6)", "over"],
      ["not logged", "1.1\u202fpsi (0.4 to 1.8)", "within"],
    ]);
  });
  test("places stand in the time of the logger", () => {
    const [line] = storyLines(analysisOf([found(shortCycles)]), clock, US_UNITS);
    expect(line.calculation.table?.rows[0][0]).toBe("3 May 2024, 08:00:00 to 08:00:20");
  });
});

test("asked and in order, failed, and cannot be shown are different things", () => {
  const outcomes = [
    { kind: "leak-down", state: "clear", limits: [] },
    { kind: "drift", state: "broken", message: "not a number" },
    { kind: "tank-charge", state: "cannot-tell", because: [{ id: "no-flow-channel", about: "tank", detail: {} }] },
  ] as const;
  expect(clearQuestions(outcomes)).toEqual(["Does pressure leak down?"]);
  const same = { id: "no-flow-channel", about: "tank", detail: {} } as const;
  expect(cannotShow([same, same], [], US_UNITS)).toHaveLength(1);
});
