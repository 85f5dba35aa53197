import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { pressureCurve } from "../../../analysis/segments/pressure-curve";
import { isCannotTell } from "../../../shared/findings/segment";
import { timeAt } from "../../../shared/record/sampling";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, onChange, recordOf } from "../../builders/record";

const BAND = 2000; // Pa
const HIDES = 5; // s: a fall of 500 Pa/s is out of the band after four

/** What a logger that looks every second writes of a pressure: rows that moved out of the dead band. */
function onMove(pressures: readonly number[]) {
  const rows: number[] = [];
  pressures.forEach((p, i) => {
    if (rows.length === 0 || Math.abs(p - pressures[rows[rows.length - 1]]) > BAND) rows.push(i);
  });
  return channel(
    "pressure",
    onChange(rows, pressures.length - 1),
    rows.map((i) => pressures[i]),
  );
}

/** A pump on a switch: 40 s up from 3 to 4 bar, a wait at the top, 200 s down. */
const CYCLE = [40, 300, 200] as const;
const LENGTH = CYCLE[0] + CYCLE[1] + CYCLE[2];
function sawToothAt(t: number): number {
  const u = t % LENGTH;
  if (u < CYCLE[0]) return 3e5 + 2500 * u;
  return u < CYCLE[0] + CYCLE[1] ? 4e5 : 4e5 - 500 * (u - CYCLE[0] - CYCLE[1]);
}
const sawTooth = (noise: number) => {
  const chance = seededRandom(2);
  return Array.from({ length: 20 * LENGTH }, (_, i) => sawToothAt(i) + noise * chance.normal());
};

describe("a pressure logged on change, as a curve", () => {
  test("lies within two dead bands of what was there, at every instant", () => {
    const pressures = sawTooth(200);
    const { values, sampling } = pressureCurve(onMove(pressures), []);
    expect(values).toHaveLength(pressures.length);
    for (let i = 0; i < values.length; i++) expect(Math.abs(values[i] - pressures[timeAt(sampling, i)])).toBeLessThan(2 * BAND);
  });
  test("a sampled one is the channel itself", () => {
    const sampled = channel("pressure", every(1, 3), [1e5, 2e5, 3e5]);
    expect(pressureCurve(sampled, []).values).toBe(sampled.values);
  });
  test("shows the same runs as one sampled every second", () => {
    const { pump } = evidenceOf(recordOf([onMove(sawTooth(200))]), { pump: "fixed-speed" }).segments;
    const runs = isCannotTell(pump) ? [] : pump.runs.filter((run) => run.complete);
    expect(runs.length).toBeGreaterThanOrEqual(18);
    for (const { from, to } of runs) {
      expect(Math.min(from % LENGTH, LENGTH - (from % LENGTH))).toBeLessThan(HIDES);
      expect(Math.abs((to % LENGTH) - CYCLE[0])).toBeLessThan(3);
    }
  });
});
