import { describe, expect, test } from "vitest";
import { aboveReached, fitSwitchPump } from "../../../analysis/model/fit/fit-switch-pump";
import type { Trace } from "../../../analysis/model/fit/trace";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";

const AIR = 101_325;
const [H0, R, K] = [95 * PSI, 4e11, 15_000];

/** A pump on Q = sqrt((H0 - p)/r) filling a gas-law tank (Boyle) from 40 to 60 psi against steady draws, stepped by hand; no part of the model. */
function record(draws: readonly number[], withFlow = true): Trace {
  const [times, pressure, flow, run, runs]: [number[], number[], number[], number[], { from: number; to: number; complete: boolean }[]] = [
    [],
    [],
    [],
    [],
    [],
  ];
  let gas = K / (60 * PSI + AIR);
  let [on, t] = [false, 0];
  for (const draw of draws) {
    for (const until = t + 1200; t < until; t++) {
      for (let k = 0; k < 50; k++) {
        const p = K / gas - AIR;
        gas -= ((on ? Math.sqrt(Math.max(0, H0 - p) / R) : 0) - draw) / 50;
      }
      const p = K / gas - AIR;
      if (!on && p < 40 * PSI) runs.push({ from: t, to: t, complete: true });
      if (on) runs[runs.length - 1].to = t;
      on = on ? p < 60 * PSI : p < 40 * PSI;
      times.push(t);
      pressure.push(p + 150 * Math.sin(77 * t * t));
      flow.push(draw);
      run.push(on ? runs.length - 1 : -1);
    }
  }
  return {
    times: Float64Array.from(times),
    pressure,
    flow: withFlow ? flow : null,
    meter: "after-tank",
    speed: null,
    run: Int32Array.from(run),
    runs,
    interval: 1,
  } as unknown as Trace;
}

describe("a pump that always turns at full speed", () => {
  const draws = [2e-4, 3e-4, 1.5e-4, 4e-4, 2.5e-4];
  test("has its curve read from what the meter shows and the tank takes up", () => {
    const curve = fitSwitchPump(record(draws), K, AIR)!;
    for (const [parameter, truth] of [
      [curve.shutoff, H0],
      [curve.steepness, R],
    ] as const) {
      expect(parameter.low).toBeLessThan(truth);
      expect(parameter.high).toBeGreaterThan(truth);
      expect(Math.log(parameter.high / parameter.low) / 2).toBeLessThan(0.25);
    }
  });
  test("keeps a usual curve without flow, but none that could not reach the cut-out", () => {
    const blind = record(draws, false);
    expect(fitSwitchPump(blind, K, AIR)).toBeNull();
    const usual = { id: "shutoff", value: 55 * PSI, low: 45 * PSI, high: 66 * PSI, scale: "log", from: "usual" } as const;
    const kept = aboveReached(usual, blind);
    expect(kept.low).toBeGreaterThan(60 * PSI);
    expect(kept.value).toBeGreaterThan(kept.low);
    expect(kept.high).toBeGreaterThan(kept.value);
  });
});
