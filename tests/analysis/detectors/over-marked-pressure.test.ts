import { expect, test } from "vitest";
import { overMarkedPressure } from "../../../analysis/detectors/over-marked-pressure";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";

const record = (psi: readonly number[]) =>
  recordOf([
    channel(
      "pressure",
      every(10, psi.length),
      psi.map((p) => p * PSI),
    ),
  ]);
const MARKED = { tankRatedPressure: "100 psi" };

test("where and how long pressure stood over the mark", () => {
  const outcome = overMarkedPressure.detect(evidenceOf(record([60, 60, 90, 110, 120, 110, 90, 60]), MARKED));
  if (outcome.state !== "found") throw new Error(outcome.state);
  expect(outcome.finding.places.map(({ from, to }) => [Math.round(from), Math.round(to)])).toEqual([[25, 55]]);
  expect(outcome.finding.total).toBeCloseTo(30, 6);
  expect(outcome.finding.highest / PSI).toBeCloseTo(120, 6);
});
test("up to the mark is clear", () => {
  expect(overMarkedPressure.detect(evidenceOf(record([60, 100, 100, 60, 55, 60, 60]), MARKED)).state).toBe("clear");
});
test("without the mark it cannot be told", () => {
  expect(overMarkedPressure.detect(evidenceOf(record([60, 160, 60])))).toMatchObject({
    state: "cannot-tell",
    because: [],
  });
});
