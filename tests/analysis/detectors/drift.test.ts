import { describe, expect, test } from "vitest";
import { drift } from "../../../analysis/detectors/drift";
import { findSteadyWindows } from "../../../analysis/segments/steady-flow";
import type { DriftFinding } from "../../../shared/findings/finding";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { alwaysRunning, evidenceOf, recordOf } from "../../builders/known-evidence";
import { addTone, noiseOf, seededRandom } from "../../builders/signals";

const PSI = PASCAL_PER_PSI;

/** 600 s of steady draw in which pressure moves by so many psi, with noise of 0.5 psi that has a memory. */
function windowsWith(psi: number, spoil: (pressure: Float64Array) => void = () => {}): DriftFinding["windows"] {
  const noise = noiseOf(600, seededRandom(8), 0.8);
  const pressure = noise.map((v, i) => (55 + 0.5 * v + (psi * i) / 599) * PSI);
  spoil(pressure);
  const record = recordOf({ pressure, flow: noiseOf(600, seededRandom(9)).map((v) => 1e-3 * (1 + 0.01 * v)) });
  const pump = alwaysRunning(record);
  const outcome = drift.detect(evidenceOf(record, { pump, steady: findSteadyWindows(record, [], pump) }));
  return outcome.state === "found" ? outcome.finding.windows : [];
}

describe("drift at steady flow", () => {
  test("a known ramp of 8 psi lies inside its interval and over the limit of 5 psi", () => {
    const [window, ...others] = windowsWith(8);
    expect(others).toEqual([]);
    expect(window.change.low).toBeLessThan(8 * PSI * 0.99);
    expect(window.change.high).toBeGreaterThan(8 * PSI * 0.97);
    expect(window.over).toBe(true);
  });
  test("a fall counts like a rise", () => {
    expect(windowsWith(-8)[0].over).toBe(true);
  });
  test("a flat pressure does not drift", () => {
    const [window] = windowsWith(0);
    expect(window.over).toBe(false);
    expect(window.change.low).toBeLessThan(0);
    expect(window.change.high).toBeGreaterThan(0);
  });
  test("a limit inside the interval is not broken", () => {
    expect(windowsWith(5.05)[0].over).toBe(false);
  });
  test("spikes and a wave on top do not move it", () => {
    const calm = windowsWith(8)[0].change.value;
    const spoilt = windowsWith(8, (pressure) => {
      addTone(pressure, seededRandom(1), { period: 20, amplitude: 3 * PSI });
      for (let i = 7; i < 600; i += 60) pressure[i] += 30 * PSI;
    })[0].change.value;
    expect(Math.abs(spoilt - calm)).toBeLessThan(0.4 * PSI);
  });
});

test("without steady draw nothing can be told", () => {
  const record = recordOf({ pressure: new Float64Array(600) });
  expect(drift.detect(evidenceOf(record, { steady: [] })).state).toBe("cannot-tell");
});
