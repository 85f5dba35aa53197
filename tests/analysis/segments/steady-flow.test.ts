import { describe, expect, test } from "vitest";
import { findSteadyWindows } from "../../../analysis/segments/steady-flow";
import type { CannotTell } from "../../../shared/findings/cannot-tell";
import { isCannotTell, type SteadyWindow } from "../../../shared/findings/segment";
import { seconds } from "../../../shared/units/quantity";
import { alwaysRunning, recordOf } from "../../builders/known-evidence";
import { noiseOf, seededRandom } from "../../builders/signals";

const FLOW = 1e-3; // m3/s

/** Flow in steps of 200 s each, with noise of 1 %. */
function stepped(levels: readonly number[], noise = 0.01, memory = 0): Float64Array {
  const rough = noiseOf(levels.length * 200, seededRandom(4), memory);
  return rough.map((v, i) => FLOW * Math.max(0, levels[Math.floor(i / 200)] * (1 + noise * v)));
}
function windowsOf(flow: Float64Array): readonly SteadyWindow[] {
  const record = recordOf({ pressure: flow, flow });
  const found = findSteadyWindows(record, [], alwaysRunning(record));
  return isCannotTell(found) ? [] : found;
}

describe("steady windows", () => {
  test("lie between the steps of the draw and settle first", () => {
    const windows = windowsOf(stepped([1, 2, 0, 1.5]));
    expect(windows.map((w) => Math.round(w.from / 10) * 10)).toEqual([20, 220, 620]);
    expect(windows.map((w) => Math.round(w.to / 10) * 10)).toEqual([200, 400, 800]);
  });
  test("know their flow", () => {
    const [first, second] = windowsOf(stepped([1, 2, 0, 1.5]));
    expect(first.meanFlow! / FLOW).toBeCloseTo(1, 2);
    expect(second.meanFlow! / FLOW).toBeCloseTo(2, 2);
  });
  test("are not torn apart by noise with a memory", () => {
    expect(windowsOf(stepped([1, 1, 1, 1, 1], 0.02, 0.95))).toHaveLength(1);
  });
  test("are found where water flows for less than a fiftieth of the time", () => {
    const levels = Array.from({ length: 100 }, (_, i) => (i === 40 ? 1 : 0));
    expect(windowsOf(stepped(levels))).toHaveLength(1);
  });
  test("end where the pump stops", () => {
    const record = recordOf({ pressure: stepped([1, 1]), flow: stepped([1, 1]) });
    const pump = {
      ...alwaysRunning(record),
      mode: "switching" as const,
      runs: [{ from: seconds(0), to: seconds(150), complete: false }],
    };
    const windows = findSteadyWindows(record, [], pump) as readonly SteadyWindow[];
    expect(windows.map((w) => w.pumpRunning)).toEqual([true, false]);
  });
  test("cannot be had without flow and speed", () => {
    const record = recordOf({ pressure: new Float64Array(100) });
    expect((findSteadyWindows(record, [], alwaysRunning(record)) as CannotTell).id).toBe("no-flow-channel");
  });
});
