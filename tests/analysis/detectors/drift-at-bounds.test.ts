import { describe, expect, test } from "vitest";
import { drift } from "../../../analysis/detectors/drift";
import type { Run, Segments, SteadyWindow } from "../../../shared/findings/segment";
import type { LogFault } from "../../../shared/record/log-fault";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { cubicMetrePerSecond, seconds } from "../../../shared/units/quantity";
import { alwaysRunning, type Columns, evidenceOf, recordOf } from "../../builders/known-evidence";
import { noiseOf, seededRandom } from "../../builders/signals";

const KPA = 1e3;
const window = (from: number, to: number, pumpRunning: boolean | null = true): SteadyWindow => ({
  from: seconds(from),
  to: seconds(to),
  basis: "flow",
  meanFlow: cubicMetrePerSecond(1e-3),
  pumpRunning,
});
const noise = noiseOf(1200, seededRandom(5));
/** 600 s about 400 kPa, rising by so much, with a scatter of 1 kPa. */
const ramp = (kpa: number, count = 600) => Float64Array.from({ length: count }, (_, i) => (400 + noise[i] + (kpa * i) / (count - 1)) * KPA);
const fault = (kind: LogFault["kind"], from: number, to: number, channel: string | null = "pressure"): LogFault => ({
  kind,
  channel,
  from: seconds(from),
  to: seconds(to),
  note: { kind: "no-samples" },
});

type Seen = {
  readonly columns?: Columns;
  readonly steady?: Segments["steady"];
  readonly pump?: Segments["pump"];
  readonly facts?: object;
  readonly faults?: readonly LogFault[];
};
function detect({ columns = { pressure: ramp(30) }, steady = [window(0, 599)], pump, facts = {}, faults = [] }: Seen) {
  const record = recordOf(columns);
  return drift.detect(
    evidenceOf(
      record,
      { steady, pump: pump ?? alwaysRunning(record) },
      readSiteFacts({ limits: { driftAtSteadyFlow: "20 kPa" }, ...facts }, "site"),
      faults,
    ),
  );
}
const windowsOf = (seen: Seen) => {
  const outcome = detect(seen);
  return outcome.state === "found" ? outcome.finding.windows : [];
};

describe("which windows count", () => {
  test("the pump running, or not known; never at rest, where the tank's own fall is no drift", () => {
    expect(windowsOf({})).toHaveLength(1);
    expect(windowsOf({ steady: [window(0, 599, null)] })).toHaveLength(1);
    expect(detect({ steady: [window(0, 599, false)] })).toMatchObject({ state: "cannot-tell", because: [{ id: "nothing-to-see" }] });
  });
  test("twelve readings, and not eleven", () => {
    const columns = { pressure: ramp(0) };
    expect(windowsOf({ columns, steady: [window(0, 11)] })).toHaveLength(1);
    expect(windowsOf({ columns, steady: [window(0, 10)] })).toHaveLength(0);
  });
  test("readings over four fifths of it", () => {
    const holed = (until: number) => ({ pressure: ramp(30).map((v, i) => (i < until ? v : Number.NaN)) });
    expect(windowsOf({ columns: holed(482), steady: [window(0, 600)] })).toHaveLength(1);
    expect(windowsOf({ columns: holed(480), steady: [window(0, 600)] })).toHaveLength(0);
  });
});

describe("what holds a pressure", () => {
  const saw = (rises: number) => {
    const runs: Run[] = Array.from({ length: rises }, (_, k) => ({
      from: seconds(k * 200 + 100),
      to: seconds(k * 200 + 199),
      complete: true,
    }));
    const pressure = Float64Array.from({ length: 1200 }, (_, i) => (i % 200 < 100 ? 500 - (i % 200) : 400 + (i % 200) - 100) * KPA);
    const columns = { pressure };
    const pump = { ...alwaysRunning(recordOf(columns)), mode: "switching" as const, runs };
    return { columns, pump, steady: [window(100, 198)] };
  };
  test("a pump that rises from cut-in to cut-out in every run holds none", () => {
    expect(windowsOf(saw(6))).toHaveLength(0);
    expect(windowsOf(saw(3))).toHaveLength(0);
  });
  test("two runs do not show that yet", () => expect(windowsOf(saw(2))).toHaveLength(1));
  test("runs that were cut do not show it either", () => {
    const { pump, ...rest } = saw(6);
    expect(windowsOf({ ...rest, pump: { ...pump, runs: pump.runs.map((run) => ({ ...run, complete: false })) } })).toHaveLength(1);
  });
  test("what the site states comes first, then a speed that was logged", () => {
    expect(windowsOf({ ...saw(6), facts: { pump: "variable-speed" } })).toHaveLength(1);
    expect(windowsOf({ facts: { pump: "fixed-speed" } })).toHaveLength(0);
    const driven = saw(6);
    expect(windowsOf({ ...driven, columns: { ...driven.columns, speed: driven.columns.pressure } })).toHaveLength(1);
  });
  test("a small rise in every run is a drive's", () => {
    const seen = saw(6);
    const pressure = seen.columns.pressure.map((v, i) => (i < 60 ? 700 * KPA : v) - (i > 1140 ? 200 * KPA : 0));
    expect(windowsOf({ ...seen, columns: { pressure } })).toHaveLength(1);
  });
});

describe("what is over the limit", () => {
  test("a rise or a fall past it with its whole interval; the places are those windows and no others", () => {
    const up = detect({ columns: { pressure: ramp(30) } });
    const down = detect({ columns: { pressure: ramp(-30) } });
    for (const outcome of [up, down])
      expect(outcome).toMatchObject({ state: "found", finding: { limit: 20 * KPA, places: [{ from: 0, to: 599 }] } });
    expect(detect({ columns: { pressure: ramp(10) } })).toMatchObject({
      state: "found",
      finding: { places: [], windows: [{ over: false }] },
    });
    expect(windowsOf({ columns: { pressure: ramp(-30) } })[0].change.value / KPA).toBeCloseTo(-30, 0);
  });
  test("the interval holds the change itself", () => {
    const { change } = windowsOf({ columns: { pressure: ramp(12) } })[0];
    expect(change.low).toBeLessThanOrEqual(change.value);
    expect(change.high).toBeGreaterThanOrEqual(change.value);
    expect(change.low).toBeLessThan(12 * KPA);
    expect(change.high).toBeGreaterThan(11.9 * KPA);
  });
});

describe("readings that a fault touches are not the system's", () => {
  const spoilt = ramp(0).map((v, i) => (i >= 200 && i <= 300 ? v + 90 * KPA : v + (i > 300 ? 8 * KPA : 0)));
  const changeOf = (...faults: LogFault[]) => windowsOf({ columns: { pressure: spoilt }, faults })[0].change.value;
  const left = changeOf();
  test("of the channel or of all, from the first to the last of its seconds", () => {
    const clean = changeOf(fault("stuck-value", 200, 300));
    expect(clean).not.toBe(left);
    expect(changeOf(fault("stuck-value", 200, 300, null))).toBe(clean);
    // One second less on either side leaves one spoilt reading in.
    expect(changeOf(fault("stuck-value", 201, 300))).not.toBe(clean);
    expect(changeOf(fault("stuck-value", 200, 299))).not.toBe(clean);
  });
  test("not of another channel, and not a hole, which holds no readings", () => {
    expect(changeOf(fault("stuck-value", 200, 300, "flow"))).toBe(left);
    expect(changeOf(fault("gap", 200, 300))).toBe(left);
    expect(changeOf(fault("silence", 200, 300))).toBe(left);
  });
});

describe("steps too coarse to tell", () => {
  const stepped = (kpa: number) => ({ pressure: ramp(30).map((v) => Math.round(v / KPA / kpa) * kpa * KPA) });
  test("more than half of the limit", () => {
    const coarse = { id: "quantised-too-coarse", about: "drift", detail: { stepPa: 12 * KPA, neededStepPa: 2 * KPA } };
    expect(detect({ columns: stepped(12) })).toMatchObject({ state: "found", limits: [coarse] });
    expect(detect({ columns: stepped(10) })).toMatchObject({ state: "found", limits: [] });
    expect(detect({})).toMatchObject({ limits: [] });
  });
});

test("the channels it rests on are named; without a pressure or a steady draw the reason is given", () => {
  expect(detect({ columns: { pressure: ramp(0), flow: ramp(0) } })).toMatchObject({ finding: { channels: ["pressure", "flow"] } });
  expect(detect({})).toMatchObject({ finding: { channels: ["pressure"] } });
  const record = { ...recordOf({ pressure: ramp(0) }), channels: [] };
  expect(drift.detect(evidenceOf(record))).toMatchObject({
    state: "cannot-tell",
    because: [{ id: "no-pressure-channel", about: "drift" }],
  });
  const without = evidenceOf(recordOf({ pressure: ramp(0) }));
  expect(drift.detect(without)).toEqual({ kind: "drift", state: "cannot-tell", because: [without.segments.steady] });
});
