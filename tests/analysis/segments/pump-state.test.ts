import { describe, expect, test } from "vitest";
import { isCannotTell, type PumpState } from "../../../shared/findings/segment";
import type { LogRecord } from "../../../shared/record/log-record";
import { evidenceOf } from "../../builders/evidence";
import { at, channel, drawn, every, onChange, recordOf } from "../../builders/record";
import golden from "../../golden/pump-state.json";

const stateOf = (record: LogRecord, facts: Record<string, unknown> = {}): PumpState => {
  const { pump } = evidenceOf(record, facts).segments;
  if (isCannotTell(pump)) throw new Error(`cannot tell: ${JSON.stringify(pump)}`);
  return pump;
};
const spans = (pump: PumpState) => pump.runs.map(({ from, to, complete }) => [from, to, complete]);

describe("a running flag", () => {
  const flag = (picture: string) => recordOf([channel("running", every(10, picture.length), drawn(picture))]);

  test("runs lie between the samples that differ", () => {
    expect(spans(stateOf(flag("..##..###..")))).toEqual([
      [15, 35, true],
      [55, 85, true],
    ]);
  });
  test("a run cut by the end or the begin of the record is incomplete", () => {
    expect(spans(stateOf(flag("##...##")))).toEqual([
      [0, 15, false],
      [45, 60, false],
    ]);
  });
  test("a single missing sample cuts nothing, a gap does", () => {
    expect(spans(stateOf(flag("..# #..")))).toEqual([[15, 45, true]]);
    expect(spans(stateOf(flag("..##     ##..")))).toEqual([
      [15, 30, false],
      [90, 105, false],
    ]);
  });
  test("one level is said as such", () => {
    expect(stateOf(flag("#####")).mode).toBe("always-running");
    expect(stateOf(flag("......")).mode).toBe("always-stopped");
  });
  test("logged on change, instants are exact and silence is not a gap", () => {
    const record = recordOf([channel("running", onChange([0, 100, 130, 7000, 7020], 9000), [0, 1, 0, 1, 0])]);
    expect(spans(stateOf(record))).toEqual([
      [100, 130, true],
      [7000, 7020, true],
    ]);
  });
});

describe("two levels with noise", () => {
  // Reference: golden case "pump-runs", hysteresis 4 A / 2 A worked with NumPy; 8 runs of 30 s, the first one cut by the start of the record.
  test("the runs of the golden current are found to the sample", () => {
    const pump = stateOf(recordOf([channel("current", every(1, golden.y.length), golden.y)]));
    expect(pump.basis).toBe("current");
    expect(pump.runs.map((run) => Math.ceil(run.from))).toEqual(golden.on);
    expect(pump.runs.slice(0, golden.off.length).map((run) => Math.ceil(run.to))).toEqual(golden.off);
    expect(pump.runs[0].complete).toBe(false);
    expect(pump.separation).toBeGreaterThan(20);
  });
  test("a speed that idles at a standby is stopped, a broad heap of running speeds is one state", () => {
    const speed = Array.from({ length: 1000 }, (_, i) => (i % 100 < 40 ? 0.6 + 0.4 * Math.abs(Math.sin(i)) : 0.2));
    expect(stateOf(recordOf([channel("speed", every(1, 1000), speed)])).runs).toHaveLength(10);
  });
  test("a speed that only varies is always running", () => {
    const speed = Array.from({ length: 1000 }, (_, i) => 0.75 + 0.2 * Math.sin(i / 30));
    expect(stateOf(recordOf([channel("speed", every(1, 1000), speed)])).mode).toBe("always-running");
  });
  test("one short run in a week is found", () => {
    const speed = new Float64Array(604_800).map((_, i) => (i >= 300_000 && i < 300_010 ? 0.9 : 0));
    expect(spans(stateOf(recordOf([channel("speed", every(1, speed.length), speed)])))).toHaveLength(1);
  });
  test("a flag that is always up gives way to a speed that switches", () => {
    const n = 400;
    const speed = Array.from({ length: n }, (_, i) => (i % 100 < 30 ? 0.8 : 0));
    const pump = stateOf(recordOf([channel("running", every(1, n), new Array(n).fill(1)), channel("speed", every(1, n), speed)]));
    expect(pump.basis).toBe("speed");
  });
  test("uneven sampling keeps its instants", () => {
    const record = recordOf([channel("current", at([0, 5, 10, 20, 26, 30, 41]), [0, 0, 6, 6, 6, 0, 0])]);
    expect(stateOf(record).runs).toHaveLength(1);
    expect(stateOf(record).runs[0].from).toBeGreaterThan(5);
    expect(stateOf(record).runs[0].to).toBeLessThan(30);
  });
});

describe("several pumps in turn", () => {
  test("runs are their union, each pump keeps its own", () => {
    const a = channel("running", every(10, 12), drawn("..##....##.."), "pump 1");
    const b = channel("running", every(10, 12), drawn("...##.##...."), "pump 2");
    const pump = stateOf(recordOf([a, b]));
    expect(pump.pumps.map(({ channel }) => channel)).toEqual(["pump 1", "pump 2"]);
    expect(spans(pump)).toEqual([
      [15, 45, true],
      [55, 95, true],
    ]);
  });
  test("three phases of one motor are one pump", () => {
    const phase = (name: string) =>
      channel(
        "current",
        every(1, 300),
        Array.from({ length: 300 }, (_, i) => (i % 60 < 20 ? 6 : 0.1)),
        name,
      );
    expect(stateOf(recordOf([phase("L1"), phase("L2"), phase("L3")])).pumps).toEqual([]);
  });
});

test("flow after the tank is no witness of the pump", () => {
  const flow = Array.from({ length: 500 }, (_, i) => (i % 50 < 20 ? 1e-3 : 0));
  const { pump } = evidenceOf(recordOf([channel("flow", every(1, 500), flow)]), { flowMeter: "after-tank" }).segments;
  expect(pump).toMatchObject({ id: "no-pump-state" });
  const before = evidenceOf(recordOf([channel("flow", every(1, 500), flow)]), { flowMeter: "before-tank" }).segments.pump;
  expect(before).toMatchObject({ basis: "flow", mode: "switching" });
});

describe("the pressure's own saw-tooth", () => {
  // Reference: golden input "tank_cycle", rise 30 s, fall 90 s, 8 peaks at 30 + 120 k, troughs at 120 k; its unit read as bar.
  test("the runs of the golden tank are its rises", () => {
    const pump = stateOf(
      recordOf([
        channel(
          "pressure",
          every(1, golden.tank.length),
          Float64Array.from(golden.tank, (bar) => bar * 1e5),
        ),
      ]),
    );
    expect(pump.basis).toBe("pressure");
    const complete = pump.runs.filter((run) => run.complete);
    expect(complete).toHaveLength(7);
    for (const [k, run] of complete.entries()) {
      expect(Math.abs(run.from - 120 * (k + 1))).toBeLessThan(3);
      expect(Math.abs(run.to - 120 * (k + 1) - 30)).toBeLessThan(3);
    }
  });
});
