import { expect, test } from "vitest";
import { demand } from "../../../analysis/detectors/demand";
import type { DrawState } from "../../../shared/findings/segment";
import type { LogRecord, Sampling } from "../../../shared/record/log-record";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, onChange, recordOf } from "../../builders/record";

const flowing = (sampling: Sampling, values: ArrayLike<number>) => recordOf([channel("flow", sampling, values)]);
const outcomeOf = (record: LogRecord) => demand.detect(evidenceOf(record));
function findingOf(record: LogRecord) {
  const outcome = outcomeOf(record);
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding;
}

test("a log on change that comes down to a twentieth of its highest flow rests there; a little above it does not", () => {
  const held = (least: number) => outcomeOf(flowing(onChange([0, 500, 900, 1500], 4000), [least, 1e-3, least, 1e-3 / 2])).state;
  expect(held(0.05e-3)).toBe("found");
  expect(held(0.051e-3)).toBe("cannot-tell");
});
test("water is counted where it was observed and not over a hole", () => {
  // 0.5 L/s for an hour, a hole of an hour, 1 L/s for an hour: 5.4 m3 in two hours.
  const flow = Array.from({ length: 10_800 }, (_, t) => (t < 3600 ? 0.5e-3 : t < 7200 ? Number.NaN : 1e-3));
  const finding = findingOf(flowing(every(1, flow.length), flow));
  expect(finding.observed).toBeCloseTo(7198, 0);
  expect(finding.volumePerDay / ((5.4 * 86_400) / 7200)).toBeCloseTo(1, 3);
  expect(finding.peakHour.from).toBeGreaterThanOrEqual(7200);
  expect(finding.peakHourVolume).toBeCloseTo(3.6, 2);
});
test("the peak hour is a whole hour and no more", () => {
  // 1 L/s throughout three hours: 3.6 m3 in any hour; the first is meant.
  const finding = findingOf(flowing(every(10, 1081), new Array(1081).fill(1e-3)));
  expect(finding.peakHour).toEqual({ from: 0, to: 3600 });
  expect(finding.peakHourVolume).toBeCloseTo(3.6, 9);
  expect(finding.places).toEqual([finding.peakHour]);
});
test("a draw at the very end is in the peak hour", () => {
  const flow = Array.from({ length: 1081 }, (_, i) => (i > 1075 ? 5e-3 : i % 2 === 0 ? 0 : 1e-5));
  expect(findingOf(flowing(every(10, 1081), flow)).peakHour).toEqual({ from: 7200, to: 10_800 });
});
test("one reading is no time observed", () => {
  expect(outcomeOf(flowing(every(1, 1), [1e-3]))).toMatchObject({ state: "cannot-tell", because: [{ id: "no-flow-channel" }] });
});
test("draws are counted by the meter only: those that a pressure shows are not the meter's", () => {
  const evidence = evidenceOf(flowing(every(10, 400), Array.from({ length: 400 }, (_, i) => (i % 100 < 20 ? 1e-3 : 0)))); // biome-ignore format: one row
  const shown = evidence.segments.draw as DrawState;
  expect(demand.detect(evidence)).toMatchObject({ finding: { draws: shown.draws.length, channels: ["flow"] } });
  expect(shown.draws.length).toBe(4);
  const byPressure = { ...evidence, segments: { ...evidence.segments, draw: { ...shown, basis: "pressure" as const } } };
  expect(demand.detect(byPressure)).toMatchObject({ finding: { draws: null } });
});
