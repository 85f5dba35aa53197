import { describe, expect, test } from "vitest";
import { CAUSE_IDS, CHECK_IDS } from "../../../shared/findings/cause";
import { type Level, OBSERVATION_IDS, OBSERVATIONS } from "../../../shared/findings/observation";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { METRIC_UNITS, US_UNITS } from "../../../shared/units/unit-choice";
import { sayCause, sayCheck, sayToSeparate } from "../../../shared/wording/cause";
import { sayObservation, sayReason } from "../../../shared/wording/reason";

const plain = (text: string) => text.replace(/[\u202f\u00a0]/g, " ");

test("every cause has a name and a meaning, every check a sentence", () => {
  for (const id of CAUSE_IDS) expect(sayCause(id).meaning).toMatch(/^[A-Z].*\.$/);
  for (const id of CHECK_IDS) expect(sayCheck(id)).toMatch(/^[A-Z].*[.?]$/);
  expect(new Set(CAUSE_IDS.map((id) => sayCause(id).name)).size).toBe(CAUSE_IDS.length);
});

describe("reasons", () => {
  test.each(OBSERVATION_IDS)("every answer to %s has its sentence", (id) => {
    for (const level of OBSERVATIONS[id]) expect(sayObservation(id, level as Level, {}, US_UNITS)).toMatch(/^[A-Z0-9].*\.$|^not known/);
  });
  test("numbers follow the reader's units", () => {
    const reason = { id: "dips", level: "deep", weight: 1, numbers: { depth: 10 * PASCAL_PER_PSI } } as const;
    expect(plain(sayReason(reason, US_UNITS))).toBe("After a draw began the pressure dipped 10 psi, and was soon back. (clear)");
    expect(plain(sayReason(reason, METRIC_UNITS))).toBe("After a draw began the pressure dipped 0.69 bar, and was soon back. (clear)");
  });
  test("an answer that does not exist is refused", () => {
    expect(() => sayObservation("dips", "few", {}, US_UNITS)).toThrow(RangeError);
  });
});

test("what parts two causes is said with what each outcome means", () => {
  const said = sayToSeparate({
    check: "measure-sensor-distance",
    cause: "sensor-far-from-tank",
    rival: "loop-too-aggressive",
    gainBits: 0.6,
    outcomes: [
      { shows: { kind: "result", result: "distance-short" }, pointsTo: "loop-too-aggressive" },
      { shows: { kind: "result", result: "distance-long" }, pointsTo: "sensor-far-from-tank" },
    ],
  });
  expect(said).toBe(
    "Measure the pipe from the sensor to the tank, bends included. A long pipe points to “sensor too far from the tank”; a short pipe points to “control too hot”.",
  );
  expect(sayToSeparate(null)).toBe("");
});

test("outcomes that begin alike begin once", () => {
  const outcome = (result: "charge-low" | "charge-right" | "charge-high", pointsTo: "precharge-low" | "healthy") =>
    ({ shows: { kind: "result", result }, pointsTo }) as const;
  const said = sayToSeparate({
    check: "read-precharge",
    cause: "healthy",
    rival: "precharge-low",
    gainBits: 0.6,
    outcomes: [outcome("charge-right", "healthy"), outcome("charge-high", "healthy"), outcome("charge-low", "precharge-low")],
  });
  expect(said).toContain(
    "A charge within its band or above its band points to “nothing wrong that shows”; a charge well below its band points to “precharge too low”.",
  );
});
