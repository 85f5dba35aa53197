import { describe, expect, test } from "vitest";
import { shortCycles } from "../../../analysis/detectors/short-cycles";
import { seededRandom } from "../../../analysis/numerics/random";
import { isCannotTell } from "../../../shared/findings/segment";
import { evidenceOf } from "../../builders/evidence";
import { channel, drawn, every, onChange, recordOf } from "../../builders/record";

/** One character is `step` seconds, # is running. */
const detect = (picture: string, step = 10, facts: Record<string, unknown> = {}) =>
  shortCycles.detect(evidenceOf(recordOf([channel("running", every(step, picture.length), drawn(picture))]), facts));

describe("short cycles, limit 60 s unless the site says otherwise", () => {
  test("a run under the limit is short", () => {
    expect(detect("..#####....########...")).toMatchObject({ state: "found", finding: { limit: 60, runs: [0], shortest: 50 } });
  });
  test("a run at the limit is not, and is said to lie too near to tell", () => {
    expect(detect("..######....########...")).toMatchObject({
      state: "clear",
      limits: [{ id: "sampling-too-slow", detail: { unsureRuns: 1 } }],
    });
    expect(detect("..########....########...")).toEqual({ kind: "short-cycles", state: "clear", limits: [] });
  });
  test("a current that steps between two samples gives lengths true in the mean, whatever its height", () => {
    // Steps at every place between two samples 5 s apart: the mean of the lengths seen is the true length (expected value of a uniform error).
    const n = 6000;
    const current = Float64Array.from({ length: n }, (_, i) => ((i * 5) % 201.3 < 57 ? 6 + 0.1 * Math.sin(i) : 0.02 * Math.cos(i)));
    const { pump } = evidenceOf(recordOf([channel("current", every(5, n), current)])).segments;
    const lengths = isCannotTell(pump) ? [] : pump.runs.filter((run) => run.complete).map((run) => run.to - run.from);
    expect(lengths.length).toBeGreaterThan(140);
    expect(Math.abs(lengths.reduce((a, b) => a + b, 0) / lengths.length - 57)).toBeLessThan(0.5);
  });
  test("a run cut by an end or by a gap is left out", () => {
    expect(detect("###....######....##").state).toBe("clear");
    expect(detect("...##      ##...########....").state).toBe("clear");
  });
  test("the site's own limit counts", () => {
    expect(detect("..######....########...", 10, { shortCycleLimit: "75 s" })).toMatchObject({ state: "found", finding: { runs: [0] } });
  });
  test("a minute between samples hides short runs, and the answer says at which interval to log", () => {
    const hidden = detect("....##########......########....", 60);
    expect(hidden).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "sampling-too-slow", about: "short-cycles", detail: { intervalS: 60, logEveryS: 2 } }],
    });
  });
  test("between, long runs and only long runs are believed", () => {
    expect(detect("...########......########....########..", 15).state).toBe("clear");
    expect(detect("...#####......#########....#########...", 15).state).toBe("cannot-tell");
  });
  test("a minute between samples hides short runs also of a pump that never seems to start, or never to stop", () => {
    for (const picture of [".".repeat(60), "#".repeat(60)]) {
      expect(detect(picture, 60).state).toBe("cannot-tell");
      expect(detect(picture, 10).state).toBe("clear");
    }
  });
  test("from pressure alone runs of fewer than five samples are counted, and others said to be hidden", () => {
    const sawTooth = (rise: number, fall: number) =>
      Array.from({ length: 40 * (rise + fall) }, (_, i) => {
        const u = i % (rise + fall);
        return 2.8e5 + 1.2e5 * (u < fall ? 1 - u / fall : (u - fall) / rise);
      });
    const look = (values: number[]) =>
      shortCycles.detect(evidenceOf(recordOf([channel("pressure", every(5, values.length), values)]), { pump: "fixed-speed" }));
    expect(look(sawTooth(3, 9))).toMatchObject({ state: "found", limits: [{ id: "sampling-too-slow", detail: { logEveryS: 2 } }] });
    expect(look(sawTooth(8, 24))).toMatchObject({ state: "found", limits: [] });
    expect(look(sawTooth(2, 9))).toMatchObject({ state: "cannot-tell", because: [{ id: "sampling-too-slow" }] });
  });
  test("a slow draw out of the tank of a drive that sleeps already does not tell when it went to sleep", () => {
    // A trickle for a minute, a draw for another until the pump starts, a rise of 6 s, then the held pressure with nothing drawn for 3 to 6 minutes: the stop lies anywhere in it.
    const chance = seededRandom(9);
    const pressures: number[] = [];
    const flows: number[] = [];
    const add = (length: number, pressure: (t: number) => number, flow: number) => {
      for (let t = 0; t < length; t++) {
        pressures.push(pressure(t) + 300 * chance.normal());
        flows.push(flow);
      }
    };
    for (let cycle = 0; cycle < 30; cycle++) {
      add(60, (t) => 450_000 - 50 * t, 5e-6);
      add(60, (t) => 447_000 - 950 * t, 9.5e-5);
      add(6, (t) => 390_000 + 10_000 * t, 9.5e-5);
      add(180 + chance.below(180), () => 450_000, 0);
    }
    const record = recordOf([channel("pressure", every(1, pressures.length), pressures), channel("flow", every(1, flows.length), flows)]);
    expect(shortCycles.detect(evidenceOf(record, { flowMeter: "after-tank", pump: "variable-speed" }))).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "no-pump-state", about: "short-cycles" }],
    });
  });
  test("a log on change misses nothing however long its silences", () => {
    const record = recordOf([channel("running", onChange([0, 4000, 4012, 9000, 9300], 20_000), [0, 1, 0, 1, 0])]);
    expect(shortCycles.detect(evidenceOf(record))).toMatchObject({ state: "found", finding: { runs: [0], shortest: 12 } });
  });
  test("the flow of a drive's pump ends before the drive does: short ones are open, long ones are not short", () => {
    const detectFlow = (picture: string, pump: string) => {
      const flow = channel(
        "flow",
        every(10, picture.length),
        drawn(picture).map((on) => on * 1e-3),
      );
      return shortCycles.detect(evidenceOf(recordOf([flow]), { flowMeter: "before-tank", pump })).state;
    };
    const short = "..####......####......####......####......####......####....";
    expect(detectFlow(short, "fixed-speed")).toBe("found");
    expect(detectFlow(short, "variable-speed")).toBe("cannot-tell");
    expect(detectFlow("..########......########......########......########......", "variable-speed")).toBe("clear");
  });
  test("without a pump state the answer is open", () => {
    const record = recordOf([channel("temperature", every(1, 50), new Array(50).fill(290))]);
    expect(shortCycles.detect(evidenceOf(record))).toMatchObject({ state: "cannot-tell", because: [{ id: "no-pump-state" }] });
  });
});
