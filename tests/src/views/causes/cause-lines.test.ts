import { expect, test } from "vitest";
import type { Cause, CauseId, Reason, ToSeparate } from "../../../../shared/findings/cause";
import { US_UNITS } from "../../../../shared/units/unit-choice";
import { causeLines, earlierShare, sayShare } from "../../../../src/views/causes/cause-lines";

const cause = (id: CauseId, confidence: number, toSeparate: ToSeparate | null = null, besideFirst: number | null = null): Cause => ({
  id,
  confidence,
  besideFirst,
  for: [],
  against: [],
  toSeparate,
});
const readPrecharge: ToSeparate = { check: "read-precharge", cause: "precharge-low", rival: "tank-too-small", gainBits: 0.8, outcomes: [] };

test("causes worth acting on are told, the rest named", () => {
  const { told, rest } = causeLines([cause("healthy", 0.02), cause("precharge-low", 0.7), cause("tank-too-small", 0.28)], US_UNITS);
  expect(told.map((line) => line.id)).toEqual(["precharge-low", "tank-too-small"]);
  expect(rest.map((line) => line.id)).toEqual(["healthy"]);
});
test("a cause that may hold beside the first is told however little it explains alone", () => {
  const { told } = causeLines(
    [cause("precharge-low", 0.95), cause("leak-or-check-valve", 0.01, null, 0.8), cause("healthy", 0.04)],
    US_UNITS,
  );
  expect(told.map((line) => [line.id, line.beside])).toEqual([
    ["precharge-low", null],
    ["leak-or-check-valve", "80\u202f%"],
  ]);
});
test("where nothing stands out, the first is still told and no more than four", () => {
  const even = (["healthy", "precharge-low", "tank-too-small", "loop-too-slow", "loss-of-prime"] as const).map((id) => cause(id, 0.2));
  expect(causeLines(even, US_UNITS).told).toHaveLength(4);
  expect(causeLines([cause("healthy", 0.03)], US_UNITS).told).toHaveLength(1);
  expect(causeLines([], US_UNITS).told).toEqual([]);
});
test("a check that brings a fact of the site can be entered where it is asked for", () => {
  const [line] = causeLines([cause("precharge-low", 0.7, readPrecharge)], US_UNITS).told;
  expect(line.fact).toBe("precharge");
  expect(line.toSeparate).toContain("locked off"); // the caution stands in the check itself
});
test("a check that is a step of the next visit is told there, with its cautions", () => {
  const [line] = causeLines([cause("precharge-low", 0.7, readPrecharge)], US_UNITS, ["log-more", "check-precharge"]).told;
  expect(line.toSeparate).toBe("Read the precharge: step 2 below.");
});
test("two reasons for a cause stand in sight; against it the weightiest, or that there are only hints", () => {
  const reason = (weight: number): Reason => ({ id: "prime", level: "held", numbers: {}, weight });
  const against = (weights: readonly number[]) =>
    causeLines([{ ...cause("healthy", 0.9), for: [3, 2, 1].map(reason), against: weights.map(reason) }], US_UNITS).told[0].strongest;
  expect(against([]).for).toHaveLength(2);
  expect(against([]).against).toEqual([]);
  expect(against([-0.4, -0.1]).against).toEqual(["Only hints."]);
  expect(against([-1.5, -0.1]).against).toEqual(["The pump never lost its water while it ran. (strong)"]);
});
test("a check that parts the first from several is asked for once", () => {
  const { told } = causeLines([cause("precharge-low", 0.6, readPrecharge), cause("tank-too-small", 0.4, readPrecharge)], US_UNITS);
  expect(told.map((line) => line.toSeparate !== null)).toEqual([true, false]);
});
test("no log gives certainty", () => {
  expect([0, 0.004, 0.64, 0.996].map(sayShare)).toEqual(["under 1\u202f%", "under 1\u202f%", "64\u202f%", "over 99\u202f%"]);
});
test("what a cause stood at before the last entry is said only where it moved", () => {
  const before = [cause("precharge-low", 0.3)];
  expect(earlierShare("precharge-low", [cause("precharge-low", 0.7)], before)).toBe("30\u202f%");
  expect(earlierShare("precharge-low", [cause("precharge-low", 0.301)], before)).toBeNull();
  expect(earlierShare("precharge-low", [cause("precharge-low", 0.7)], null)).toBeNull();
});
