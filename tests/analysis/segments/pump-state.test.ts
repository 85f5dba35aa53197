import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { isCannotTell, type PumpState } from "../../../shared/findings/segment";
import type { LogRecord } from "../../../shared/record/log-record";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
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
  test("a drive that rests at zero runs at its least speed too: held before it sleeps, or reached by a loop that swings", () => {
    const speed = Array.from({ length: 2000 }, (_, i) => {
      const u = i % 200;
      if (u < 80) return 0;
      return u >= 170 ? 0.3 : Math.max(0.3, 0.65 + 0.35 * Math.sin(i / 4));
    });
    const { runs } = stateOf(recordOf([channel("speed", every(1, 2000), speed)]));
    expect(runs).toHaveLength(10);
    for (const [k, run] of runs.entries()) expect(run).toMatchObject({ from: expect.closeTo(200 * k + 79.5, 0), complete: k < 9 });
    expect(runs[0].to).toBeCloseTo(199.5, 0);
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

describe("pressure alone, harder", () => {
  /** A switch between 40 and 60 psi: rises of 40 s, falls of 100 s, some of them with a wait at the top. */
  const sawTooth = (noise: number, step = 1, wait = 60) => {
    const chance = seededRandom(9);
    const truth: number[] = [];
    const stops: number[] = [];
    const pressure: number[] = [];
    let t = 0;
    for (let cycle = 0; cycle < 30; cycle++) {
      truth.push(t);
      for (let s = 0; s < 40; s++, t++) pressure.push(40 + s / 2);
      stops.push(t);
      for (let s = 0; s < (cycle % 3 === 0 ? wait : 0); s++, t++) pressure.push(60);
      for (let s = 0; s < 100; s++, t++) pressure.push(60 - s / 5);
    }
    const seen = pressure.filter((_, i) => i % step === 0).map((psi) => psi * PSI + noise * chance.normal());
    return { record: recordOf([channel("pressure", every(step, seen.length), seen)]), truth: truth.slice(1), stops: stops.slice(1, -1) };
  };
  const near = (found: readonly number[], truth: readonly number[], within: number) =>
    truth.filter((t) => found.some((f) => Math.abs(f - t) <= within)).length / truth.length;

  test.each([
    [300, 1, 3],
    [3000, 1, 3],
    [1000, 5, 10],
  ])("starts and stops under noise of %d Pa at %d s within %d s", (noise, step, within) => {
    const { record, truth, stops } = sawTooth(noise, step);
    const { runs } = stateOf(record, { pump: "fixed-speed" });
    expect(
      near(
        runs.map((run) => run.from),
        truth,
        within,
      ),
    ).toBeGreaterThanOrEqual(0.95);
    expect(
      near(
        runs.map((run) => run.to),
        stops,
        within,
      ),
    ).toBeGreaterThanOrEqual(0.95);
    expect(runs.length).toBeLessThanOrEqual(truth.length + 2);
  });

  test("a drive's long quiet top hides its stop: the run's length is not claimed", () => {
    const { record } = sawTooth(300, 1, 200);
    const { runs } = stateOf(record, { pump: "variable-speed" });
    const quiet = runs.filter((_, i) => i % 3 === 0).slice(1, -1); // every third top waits for 200 s
    expect(quiet.every((run) => !run.complete)).toBe(true);
    expect(quiet.length).toBeGreaterThan(5);
  });

  test("noise alone has no saw-tooth", () => {
    const chance = seededRandom(1);
    const record = recordOf([
      channel(
        "pressure",
        every(1, 5000),
        Array.from({ length: 5000 }, () => 4e5 + 3000 * chance.normal()),
      ),
    ]);
    expect(evidenceOf(record).segments.pump).toMatchObject({ id: "no-pump-state" });
  });
});

describe("pressure alone, where the pressure waits", () => {
  test("a long wait just above the starting pressure belongs to the rest, not to the run", () => {
    const chance = seededRandom(21);
    const pressure: number[] = [];
    const starts: number[] = [];
    for (let cycle = 0; cycle < 12; cycle++) {
      for (let s = 0; s < 100; s++) pressure.push(60 - 0.199 * s);
      for (let s = 0; s < (cycle % 2 === 0 ? 300 : 0); s++) pressure.push(40.1);
      starts.push(pressure.length);
      for (let s = 0; s < 28; s++) pressure.push(40 + s / 1.4);
    }
    for (let s = 0; s < 60; s++) pressure.push(60 - s / 10);
    const seen = pressure.map((psi) => psi * PSI + 350 * chance.normal());
    const { runs } = stateOf(recordOf([channel("pressure", every(1, seen.length), seen)]), { pump: "fixed-speed" });
    expect(runs).toHaveLength(starts.length); // and none at the begin, where the pressure only falls
    for (const [i, run] of runs.entries()) expect(Math.abs(run.from - starts[i])).toBeLessThan(3);
  });
  test("a drive that hunts near its set pressure starts where the pressure falls deepest, not at every wave", () => {
    const chance = seededRandom(22);
    const pressure: number[] = [];
    for (let cycle = 0; cycle < 10; cycle++) {
      for (let s = 0; s < 60; s++) pressure.push(58 - s / 6);
      for (let s = 0; s < 10; s++) pressure.push(48 + s);
      for (let s = 0; s < 240; s++) pressure.push(55.5 + 2.5 * Math.sin((2 * Math.PI * s) / 20));
    }
    const seen = pressure.map((psi) => psi * PSI + 350 * chance.normal());
    expect(
      stateOf(recordOf([channel("pressure", every(1, seen.length), seen)]), { pump: "variable-speed" }).runs.length,
    ).toBeLessThanOrEqual(11);
  });
});
