import { expect, test } from "vitest";
import { demand } from "../../../analysis/detectors/demand";
import { seededRandom } from "../../../analysis/numerics/random";
import { METRIC_UNITS } from "../../../shared/units/unit-choice";
import { sayFinding } from "../../../shared/wording/finding";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, onChange, recordOf } from "../../builders/record";

test("volume per day and peak hour of a rectangular draw", () => {
  // 1 L/s for 600 s in each of 24 hours, 1.5 L/s in the 12th: 23 * 600 L + 900 L = 14.7 m3; peak hour 0.9 m3
  const flow = Array.from({ length: 8641 }, (_, i) => (i % 360 >= 100 && i % 360 < 160 ? (Math.floor(i / 360) === 12 ? 1.5e-3 : 1e-3) : 0));
  const outcome = demand.detect(evidenceOf(recordOf([channel("flow", every(10, flow.length), flow)])));
  expect(outcome).toMatchObject({ state: "found", finding: { draws: 24 } });
  if (outcome.state !== "found") return;
  expect(outcome.finding.volumePerDay).toBeCloseTo(14.7, 3);
  expect(outcome.finding.peakHourVolume).toBeCloseTo(0.9, 3);
});
test("a meter that trembles at zero and shows nothing below it adds no water", () => {
  // 1 L/s for 600 s in each of 24 hours is 14.4 m3; a tremble of 2 % of that flow, cut off at zero, would add s / sqrt(2 pi) for 20 h: 0.57 m3
  const chance = seededRandom(3);
  const flow = Array.from({ length: 8641 }, (_, i) => Math.max(0, (i % 360 >= 100 && i % 360 < 160 ? 1e-3 : 0) + 2e-5 * chance.normal()));
  const outcome = demand.detect(evidenceOf(recordOf([channel("flow", every(10, flow.length), flow)])));
  if (outcome.state !== "found") throw new Error(outcome.state);
  expect(outcome.finding.volumePerDay).toBeCloseTo(14.4, 1);
  expect(outcome.finding.draws).toBe(24);
});
test("a log on change holds its flow", () => {
  const outcome = demand.detect(
    evidenceOf(recordOf([channel("flow", onChange([0, 100, 160, 1000, 1010], 86_400), [0, 1e-3, 0, 2e-3, 0])])),
  );
  if (outcome.state !== "found") throw new Error(outcome.state);
  expect(outcome.finding.volumePerDay).toBeCloseTo(0.08, 6);
});
test("rows that are events with a flow each are not held until the next", () => {
  const outcome = demand.detect(
    evidenceOf(recordOf([channel("flow", onChange([0, 5000, 9000, 50_000], 86_400), [2e-4, 3e-4, 2e-4, 1e-4])])),
  );
  expect(outcome).toMatchObject({ state: "cannot-tell", because: [{ id: "nothing-to-see" }] });
});
test("a flow that never rests has no draws to count, and an hour of it is no day", () => {
  const outcome = demand.detect(evidenceOf(recordOf([channel("flow", every(1, 3601), new Array(3601).fill(1e-3))])));
  if (outcome.state !== "found") throw new Error(outcome.state);
  expect(outcome.finding).toMatchObject({ draws: null, observed: 3600 });
  expect(sayFinding(outcome.finding, METRIC_UNITS).title).toMatch(/^3600.L drawn in 1.0.h/);
});
test("without flow nothing is said", () => {
  expect(demand.detect(evidenceOf(recordOf([channel("pressure", every(1, 9), new Array(9).fill(1e5))])))).toMatchObject({
    state: "cannot-tell",
    because: [{ id: "no-flow-channel" }],
  });
});
