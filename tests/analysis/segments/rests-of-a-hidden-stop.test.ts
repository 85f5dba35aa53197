import { describe, expect, test } from "vitest";
import { tankTraces } from "../../../analysis/segments/tank-windows";
import { cumulativeVolume } from "../../../analysis/segments/volume";
import type { PumpState, Run } from "../../../shared/findings/segment";
import { seconds } from "../../../shared/units/quantity";
import { channel, every } from "../../builders/record";

const ATMOSPHERE = 101_325;
const GAS = 20_000; // J
const DRAWN = 1e-4; // m3/s throughout
const [TOP, START] = [500_000, 450_000]; // Pa gauge
/** Boyle: 1/p rises by q/K a second, so that the fall lasts K (1/p1 - 1/p0)/q. */
const FALL = (GAS / DRAWN) * (1 / (START + ATMOSPHERE) - 1 / (TOP + ATMOSPHERE));
const [RISE, HELD] = [5, 60];
const CYCLE = RISE + HELD + FALL;

/** A drive lifts the pressure, holds it for a minute while water is drawn, sleeps, and the tank alone gives until the next start. */
function pressureAt(t: number): number {
  const u = t % CYCLE;
  if (u < RISE) return START + ((TOP - START) * u) / RISE;
  if (u < RISE + HELD) return TOP;
  return 1 / (1 / (TOP + ATMOSPHERE) + (DRAWN / GAS) * (u - RISE - HELD)) - ATMOSPHERE;
}

function rests(complete: boolean, stopAfter: number) {
  const n = Math.floor(12 * CYCLE);
  const pressure = channel(
    "pressure",
    every(1, n),
    Array.from({ length: n }, (_, i) => pressureAt(i)),
  );
  const flow = channel("flow", every(1, n), new Float64Array(n).fill(DRAWN));
  const runs = Array.from(
    { length: 12 },
    (_, k): Run => ({ from: seconds(k * CYCLE), to: seconds(k * CYCLE + RISE + stopAfter), complete }),
  );
  const observed = [{ from: seconds(0), to: seconds(n - 1) }];
  const pump: PumpState = {
    basis: "pressure",
    channel: "pressure",
    mode: "switching",
    runs,
    observed,
    separation: null,
    certainty: 0.6,
    pumps: [],
  };
  const stretches = [{ first: 0, last: n - 1, ...observed[0] }];
  return tankTraces(
    pump,
    { channel: pressure, values: pressure.values, stretches, atmosphere: ATMOSPHERE },
    { channel: flow, values: flow.values, volume: cumulativeVolume(flow, flow.values), stretches },
  );
}

describe("the rest of a drive of which pressure alone tells", () => {
  const slopes = (complete: boolean, stopAfter: number) =>
    rests(complete, stopAfter).map(({ drawn, inverse, calmUntil: n }) => (drawn[n - 1] - drawn[0]) / (inverse[n - 1] - inverse[0]) / GAS);

  test("where its stop is a guess, holds no water that the pump gave", () => {
    const seen = slopes(false, 15); // told 45 s before it really slept
    expect(seen.length).toBeGreaterThan(8);
    for (const share of seen) expect(share).toBeCloseTo(1, 1);
  });
  test("where its stop was seen, is taken from there", () => {
    for (const { span } of rests(true, HELD)) expect((span.from - RISE - HELD) % CYCLE).toBeLessThan(6);
  });
  test("and with such a stop believed, the pump's water would be taken for the tank's", () => {
    for (const share of slopes(true, 15)) expect(share).toBeGreaterThan(1.3);
  });
});
