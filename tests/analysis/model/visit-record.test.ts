import { describe, expect, test } from "vitest";
import { demandOf } from "../../../analysis/model/demand";
import { householdDraws, pulsedDraw, steadyDraw, swingingDraw } from "../../../analysis/model/draws";
import { simulateSite } from "../../../analysis/model/simulate-site";
import type { SensorModel } from "../../../analysis/model/site-model";
import { calmSensor } from "../../../analysis/model/sound-site";
import { visitRecord } from "../../../analysis/model/visit-record";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { exampleSite, GPM, withDrive } from "../../builders/model-sites";

const SET = 58 * PSI;
const hour = (seed: number) => demandOf(householdDraws(10, 3600, seed, 18), SET);
const withOwnSensor = (sensor: Partial<SensorModel>) => {
  const base = exampleSite();
  return { ...base, logger: { ...base.logger, ownSensor: { ...calmSensor, ...sensor } } };
};

describe("a simulated visit", () => {
  test("is the same for the same seed and another for another", () => {
    const record = (seed: number) => visitRecord(simulateSite(exampleSite(), hour(1), 3600, seed));
    expect(record(5)).toEqual(record(5));
    expect(record(5).channels[0].values).not.toEqual(record(6).channels[0].values);
  });

  test("has one sample each interval, even, in SI", () => {
    const base = exampleSite();
    const record = visitRecord(simulateSite({ ...base, logger: { ...base.logger, interval: 2 } }, hour(1), 3600, 1));
    expect(record.channels.map((c) => [c.role, c.values.length])).toEqual([
      ["pressure", 1801],
      ["flow", 1801],
      ["speed", 1801],
    ]);
    expect(record.channels[0].sampling).toEqual({ kind: "even", start: 0, step: 2, count: 1801 });
    expect(record.duration).toBe(3600);
  });

  test("loses rows by chance and in gaps, and says its times", () => {
    const base = exampleSite();
    const site = { ...base, logger: { ...base.logger, missing: 0.05, jitter: 0.05, gaps: [{ from: 1000, to: 1600 }] } };
    const record = visitRecord(simulateSite(site, hour(1), 3600, 1));
    const sampling = record.channels[0].sampling;
    if (sampling.kind !== "listed") throw new Error(sampling.kind);
    expect(record.rows.accepted / (3001 * 0.95)).toBeCloseTo(1, 1);
    const steps = Array.from(sampling.times.subarray(1), (t, i) => t - sampling.times[i]);
    expect(steps.every((step) => step > 0)).toBe(true);
    expect(steps.some((step) => step > 598)).toBe(true);
  });

  test("shows a stuck, a clipped, a wrongly scaled sensor", () => {
    const pressures = (sensor: Partial<SensorModel>) =>
      simulateSite(withOwnSensor(sensor), hour(1), 3600, 1).samples.columns.get("pressure")!;
    expect(new Set(pressures({ stuck: [{ from: 600, to: 1200 }], noise: 0 }).subarray(601, 1199)).size).toBe(1);
    const clipped = pressures({ range: { low: 0, high: 55 * PSI } });
    expect(clipped.reduce((most, p) => Math.max(most, p), 0)).toBeCloseTo(55 * PSI, 0);
    expect(pressures({ scale: { gain: 1.6, offset: 0 } })[1800] / pressures({})[1800]).toBeCloseTo(1.6, 2);
  });

  test("turbulence shakes the reading with the square of flow", () => {
    const spread = (gpm: number) => {
      const site = withOwnSensor({ turbulence: 3, noise: 0, step: 0 });
      const visit = simulateSite(site, demandOf(steadyDraw(0, 2000, gpm * GPM), SET), 2000, 1);
      const p = visit.samples.columns.get("pressure")!.subarray(300);
      const mean = p.reduce((sum, v) => sum + v, 0) / p.length;
      return Math.sqrt(p.reduce((sum, v) => sum + (v - mean) ** 2, 0) / p.length);
    };
    expect(Math.abs(spread(30) / spread(15) - 4)).toBeLessThan(0.5);
  });

  test("a drive that loses its prime runs dry, trips and tries again", () => {
    const base = withDrive(exampleSite(), { dryRunStop: { after: 20, retryAfter: 300 } });
    const site = { ...base, pump: { ...base.pump, withoutPrime: [{ from: 200, to: 2000 }] } };
    const { truth } = simulateSite(site, demandOf(steadyDraw(0, 3600, 10 * GPM), SET), 3600, 1);
    expect(truth.lowestPressure).toBeLessThan(5 * PSI);
    expect(truth.runs.length).toBeGreaterThan(4);
  });
});

describe("draws", () => {
  test("add up to a staircase that keeps their volume", () => {
    const events = [...steadyDraw(10, 110, 1e-4), ...pulsedDraw(50, 100, 10, 4, 2e-4), ...swingingDraw(100, 160, 20, 0, 1e-4)];
    const told = events.reduce((sum, event) => sum + event.flow * (event.to - event.from), 0);
    const { times, flows } = demandOf(events, SET);
    const volume = flows.reduce((sum, flow, i) => sum + (i + 1 < times.length ? flow * (times[i + 1] - times[i]) : 0), 0);
    expect(volume).toBeCloseTo(told, 9);
    expect(flows[flows.length - 1]).toBe(0);
  });
  test("of households are few at night, and about as many as told", () => {
    const events = householdDraws(20, 10 * 86400, 1);
    expect(events.length / (20 * 10 * 60)).toBeCloseTo(1, 1);
    const night = events.filter((event) => (event.from / 3600) % 24 >= 2 && (event.from / 3600) % 24 < 4).length;
    expect(night / events.length).toBeLessThan(0.01);
  });
});
