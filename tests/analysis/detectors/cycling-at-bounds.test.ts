import { describe, expect, test } from "vitest";
import { cycling } from "../../../analysis/detectors/cycling";
import type { Clock } from "../../../shared/record/clock";
import { seconds } from "../../../shared/units/quantity";
import { evidenceOf } from "../../builders/evidence";
import { evidenceOf as evidenceWith, recordOf as recordWith } from "../../builders/known-evidence";
import { channel, onChange, recordOf } from "../../builders/record";

const ATMOSPHERE = 101.325; // kPa, ISO 2533

/** A pump that runs 20 s from each of the instants, in a record that lasts until `until`. */
function switching(starts: readonly number[], until: number, facts: Record<string, unknown> = {}, clock: Clock = { kind: "elapsed" }) {
  const times = [0, ...starts.flatMap((t) => [t, t + 20])];
  const running = channel(
    "running",
    onChange(times, until),
    times.map((_, i) => i % 2),
  );
  const outcome = cycling.detect(evidenceOf({ ...recordOf([running]), clock }, facts));
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding;
}

describe("the busiest hour", () => {
  test("does not hold two starts that are an hour apart", () => {
    expect(switching([1000, 4600], 9000)).toMatchObject({ peakStartsPerHour: 1, peakHour: { from: 1000, to: 4600 } });
    expect(switching([1000, 4599], 9000)).toMatchObject({ peakStartsPerHour: 2, peakHour: { from: 1000, to: 4600 } });
  });
  test("is the first of two that are as busy", () => {
    expect(switching([100, 200, 8000, 8100], 12_000).peakHour).toEqual({ from: 100, to: 3700 });
  });
});

describe("starts at night, between midnight and five by the logger's clock", () => {
  // 5 March 2026, 22:00 UTC.
  const clock = (zone: string | null): Clock => ({ kind: "absolute", epoch: Date.UTC(2026, 2, 5, 22) / 1000, zone });
  const hour = 3600;
  const starts = [1.9 * hour, 2 * hour, 4 * hour, 6.99 * hour, 7 * hour, 9 * hour];
  test("midnight counts and five does not", () => expect(switching(starts, 10 * hour, {}, clock(null)).startsAtNight).toBe(3));
  test("in the zone of the clock, here two hours ahead", () => {
    expect(switching(starts, 10 * hour, {}, clock("+02:00")).startsAtNight).toBe(3);
    expect(switching([0.5 * hour, 5 * hour], 10 * hour, {}, clock("+02:00")).startsAtNight).toBe(1);
  });
  test("are not known to an elapsed clock, nor where the record holds no night", () => {
    expect(switching(starts, 10 * hour).startsAtNight).toBeNull();
    expect(switching([600], hour, {}, clock(null)).startsAtNight).toBeNull();
  });
});

describe("the shortest cycle that a tank allows, T = 4 V/Q (MIL-HDBK-1005/9A) with V by Boyle's law", () => {
  const facts = { tankVolume: "100 L", precharge: "200 kPa", pumpRatedFlow: "1 L/s", cutIn: "220 kPa", cutOut: "400 kPa" };
  const water = (from: number, to: number) => 0.1 * (200 + ATMOSPHERE) * (1 / (from + ATMOSPHERE) - 1 / (to + ATMOSPHERE));
  const shortest = (change: Record<string, unknown>) => switching([100], 1000, { ...facts, ...change }).expectedShortestCycle;
  test("between the stated switching pressures", () => expect(shortest({})).toBeCloseTo((4 * water(220, 400)) / 1e-3, 6));
  test("from the restart pressure where no cut-in is stated; up to the set pressure where no cut-out is seen", () => {
    expect(shortest({ cutIn: undefined, restartPressure: "250 kPa" })).toBeCloseTo((4 * water(250, 400)) / 1e-3, 6);
    expect(shortest({ cutOut: undefined, setPressure: "380 kPa" })).toBeCloseTo((4 * water(220, 380)) / 1e-3, 6);
  });
  test("above the precharge only: below it the tank gives none", () => {
    expect(shortest({ cutIn: "150 kPa" })).toBeCloseTo((4 * water(200, 400)) / 1e-3, 6);
    expect(shortest({ cutIn: "150 kPa", cutOut: "190 kPa" })).toBeNull();
  });
  test("is not known where a fact is missing, or the pump would stop below where it starts", () => {
    for (const missing of Object.keys(facts)) expect(shortest({ [missing]: undefined }), missing).toBeNull();
    expect(shortest({ cutIn: undefined, restartPressure: "400 kPa" })).toBeNull();
    expect(shortest({ cutIn: undefined, restartPressure: "420 kPa" })).toBeNull();
  });
  test("by the pressures of the log where none is stated", () => {
    const rise = (t: number) => (t % 300 < 100 ? 400 - (180 * (t % 300)) / 100 : 220 + (180 * ((t % 300) - 100)) / 200);
    const sampling = { kind: "even" as const, start: seconds(0), step: seconds(1), count: 3000 };
    const record = recordOf([
      channel(
        "pressure",
        sampling,
        Array.from({ length: 3000 }, (_, t) => 1e3 * rise(t)),
      ),
      channel(
        "running",
        sampling,
        Array.from({ length: 3000 }, (_, t) => (t % 300 < 100 ? 0 : 1)),
      ),
    ]);
    const outcome = cycling.detect(evidenceOf(record, { ...facts, cutIn: undefined, cutOut: undefined }));
    if (outcome.state !== "found") throw new Error(outcome.state);
    expect(outcome.finding.expectedShortestCycle! / ((4 * water(220, 400)) / 1e-3)).toBeCloseTo(1, 1);
    expect(outcome.finding.cutIn!.value / 220e3).toBeCloseTo(1, 1);
    expect(outcome.finding.cutOut!.value / 400e3).toBeCloseTo(1, 1);
  });
});

test("a pump that never started has no busiest hour and no usual run", () => {
  expect(switching([], 3600)).toMatchObject({ starts: 0, peakStartsPerHour: 0, peakHour: null, medianRun: null, medianRest: null });
});
test("where the pump's state is not known, nor are its starts", () => {
  const evidence = evidenceWith(recordWith({ pressure: [1, 2, 3] }));
  expect(cycling.detect(evidence)).toEqual({ kind: "cycling", state: "cannot-tell", because: [evidence.segments.pump] });
});
