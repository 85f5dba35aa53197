import { describe, expect, test } from "vitest";
import { sensor } from "../../../analysis/detectors/sensor";
import { headLoss } from "../../../analysis/hydraulics/head-loss";
import { seededRandom } from "../../../analysis/numerics/random";
import type { LogRecord } from "../../../shared/record/log-record";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { cubicMetrePerSecond, metre } from "../../../shared/units/quantity";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";
import { GPM, rareDraws, tankLog, usualTank } from "../../builders/tank-log";

const found = (record: LogRecord, facts: Record<string, unknown> = {}) => {
  const outcome = sensor.detect(evidenceOf(record, facts));
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding;
};
/** Flow in four steps of ten minutes each; pressure held at 55 psi by a pump that runs on, with noise that may depend on flow. */
const held = (noiseAt: (q: number) => number, psi = 55) => {
  const chance = seededRandom(11);
  const flow = Array.from({ length: 4800 }, (_, i) => [0, 5, 10, 20][Math.floor(i / 600) % 4] * GPM);
  const pressure = flow.map((q) => psi * PSI + noiseAt(q) * chance.normal());
  return recordOf([
    channel("pressure", every(1, flow.length), pressure),
    channel("flow", every(1, flow.length), flow),
    channel(
      "running",
      every(1, flow.length),
      flow.map(() => 1),
    ),
  ]);
};

describe("noise", () => {
  test("is the spread from sample to sample", () => expect(found(held(() => 800)).noise! / 800).toBeCloseTo(1, 1));
  test("that stays with flow is no turbulence", () => expect(found(held(() => 800)).noiseGrowsWithFlow).toBe(false));
  test("that goes with the square of flow is, with its factor", () => {
    const factor = 4000 / (20 * GPM) ** 2;
    const { noiseGrowsWithFlow, noiseGrowth } = found(held((q) => Math.hypot(300, factor * q * q)));
    expect(noiseGrowsWithFlow).toBe(true);
    expect(noiseGrowth?.value).toBeGreaterThan(0.85 * factor);
    expect(noiseGrowth?.value).toBeLessThan(1.15 * factor);
  });
  /** A day as at most sites: hardly any flow, but for five minutes of much and five of middling in each hour; the pump runs then only. */
  const seldom = (noiseAt: (share: number) => number) => {
    const chance = seededRandom(6);
    const share = (i: number) => (i % 3600 < 300 ? 1 : i % 3600 < 600 ? 0.35 : 0);
    const times = every(1, 6 * 3600);
    const all = (of: (i: number) => number) => Array.from({ length: 6 * 3600 }, (_, i) => of(i));
    return recordOf([
      channel(
        "pressure",
        times,
        all((i) => 55 * PSI + noiseAt(share(i)) * chance.normal()),
      ),
      channel(
        "flow",
        times,
        all((i) => 20 * GPM * share(i)),
      ),
      channel(
        "running",
        times,
        all((i) => (share(i) > 0 ? 1 : 0)),
      ),
    ]);
  };
  test("is seen to grow also where much flow is seldom", () => {
    expect(found(seldom((share) => Math.hypot(300, 900 * share ** 2))).noiseGrowsWithFlow).toBe(true);
    expect(found(seldom(() => 300)).noiseGrowsWithFlow).toBe(false);
  });
  test("that is there in full at middling flow is the loop's, not the square law's", () => {
    expect(found(seldom((share) => (share > 0 ? 900 : 300))).noiseGrowsWithFlow).toBe(false);
  });
  test("without flow its growth is not known", () => {
    const record = recordOf(held(() => 800).channels.filter((c) => c.role !== "flow"));
    expect(found(record)).toMatchObject({ noiseGrowsWithFlow: null, noiseGrowth: null });
  });
});

describe("lag behind flow", () => {
  const log = tankLog({ ...usualTank, draw: rareDraws, seconds: 4 * 3600, noise: 300 });
  const lagged = (tau: number) =>
    recordOf(
      log.channels.map((c) => {
        if (c.role !== "pressure") return c;
        let seen = c.values[0];
        return channel(
          "pressure",
          c.sampling,
          Float64Array.from(c.values, (p) => (seen += (p - seen) * (1 - Math.exp(-1 / tau)))),
        );
      }),
    );
  test("a prompt sensor has none beyond the doubt of a start between two samples", () => {
    expect(found(log, { flowMeter: "after-tank" }).lag?.value).toBeLessThan(1.5);
  });
  test("a first-order lag is found within a second", () => {
    const { lag } = found(lagged(5), { flowMeter: "after-tank" });
    expect(lag?.value).toBeGreaterThan(4);
    expect(lag?.value).toBeLessThan(6.5);
  });
});

describe("scale", () => {
  test("a drive that holds 1.5 times its set pressure reads on a wrong range", () => {
    expect(
      found(
        held(() => 500, 90),
        { setPressure: "60 psi", pump: "variable-speed" },
      ).scaleRatio,
    ).toBeCloseTo(1.5, 2);
  });
  test("a few per cent are settings", () => {
    expect(
      found(
        held(() => 500, 57),
        { setPressure: "60 psi" },
      ).scaleRatio,
    ).toBeNull();
  });
});

describe("stuck, frozen, pinned", () => {
  const withStuck = (kelvin: number) => {
    const base = held(() => 800);
    const values = Float64Array.from(base.channels[0].values);
    values.fill(values[1000], 1000, 1400);
    return recordOf([
      channel("pressure", every(1, values.length), values),
      ...base.channels.slice(1),
      channel(
        "temperature",
        every(1, values.length),
        values.map(() => kelvin),
      ),
    ]);
  };
  test("stuck in the warm, frozen in the cold", () => {
    expect(found(withStuck(290))).toMatchObject({ stuck: [{ from: 1000, to: 1399 }], frozen: [] });
    expect(found(withStuck(273))).toMatchObject({ stuck: [], frozen: [{ from: 1000, to: 1399 }] });
  });
});

test("two pressures give the pipe between them", () => {
  const pipe = { length: metre(12), bore: metre(0.041), roughness: metre(1.5e-6) };
  const chance = seededRandom(2);
  const flow = Array.from({ length: 1200 }, (_, i) => (5 + 20 * Math.abs(Math.sin(i / 90))) * GPM);
  const record = recordOf([
    channel(
      "pressure",
      every(1, 1200),
      flow.map((q) => 4e5 + headLoss(pipe, cubicMetrePerSecond(q)) + 300 * chance.normal()),
      "pump",
    ),
    channel(
      "pressure",
      every(1, 1200),
      flow.map(() => 4e5 + 300 * chance.normal()),
      "tank",
    ),
    channel("flow", every(1, 1200), flow),
  ]);
  const { equivalentDistance } = found(record, { pipeInsideDiameter: "41 mm" });
  expect(equivalentDistance?.value).toBeGreaterThan(10);
  expect(equivalentDistance?.value).toBeLessThan(14);
});
