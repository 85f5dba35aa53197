import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { gasHeat } from "../../../analysis/segments/gas-heat";
import { isCannotTell, type LivingTank } from "../../../shared/findings/segment";
import { STANDARD_ATMOSPHERE as AIR } from "../../../shared/units/pressure";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";

const GAMMA = 1.4;
const VOLUME = 0.05; // m3
const PRECHARGE = 2e5; // Pa gauge
const K = (PRECHARGE + AIR) * VOLUME;

/**
 * A gas tank, alone or beside pipes that give too, integrated by the first law in steps of 10 ms, dT/dt = -(gamma - 1) T dV/V - (T - 1)/tau, p V = K T: nothing of the filter that is tested. A pump on
 * a switch between 3 and 4.2 bar, draws of a minute with pauses of two, one sample a second with a running flag.
 */
function thermalLog(tau: number, seconds: number, noise = 0, gamma = GAMMA, pipes = 0) {
  const chance = seededRandom(5);
  const dt = 0.01;
  let gas = K / (4.2e5 + AIR);
  let warmth = 1;
  let running = false;
  const rows: { p: number; q: number; on: number; warmth: number }[] = [];
  for (let i = 0; i * dt < seconds; i++) {
    const p = (K * warmth) / gas - AIR;
    if (p < 3e5) running = true;
    if (p > 4.2e5) running = false;
    const q = (i * dt) % 180 < 60 ? 1e-4 : 0;
    if (i % 100 === 0) rows.push({ p: p + noise * chance.normal(), q, on: running ? 1 : 0, warmth });
    // dW = dV - C dp, with dp of p V = K T: pipes of compliance C give water too, and take some as the gas warms up again
    const absolute = p + AIR;
    const regained = tau > 0 ? ((warmth - 1) / warmth / tau) * dt * pipes * absolute : 0;
    const dV = (dt * (q - (running ? 4e-4 : 0)) - regained) / (1 + (pipes * (tau > 0 ? gamma : 1) * absolute) / gas);
    warmth += (-(gamma - 1) * warmth * dV) / gas - (tau > 0 ? ((warmth - 1) / tau) * dt : warmth - 1);
    if (tau === 0) warmth = 1;
    gas += dV;
  }
  return rows;
}

function tankOf(rows: ReturnType<typeof thermalLog>): LivingTank {
  const times = every(1, rows.length);
  const columns = [
    channel(
      "pressure",
      times,
      rows.map((r) => r.p),
    ),
    channel(
      "flow",
      times,
      rows.map((r) => r.q),
    ),
    channel(
      "running",
      times,
      rows.map((r) => r.on),
    ),
  ];
  const { tank } = evidenceOf(recordOf(columns), { flowMeter: "after-tank" }).segments;
  if (isCannotTell(tank)) throw new Error(JSON.stringify(tank));
  return tank;
}

test("a sudden squeeze from 4 to 5 bar absolute warms gas by 1.25^(2/7) - 1, and a time constant later by 1/e of it (adiabatic law, then Newton's cooling)", () => {
  const values = Float64Array.from({ length: 200 }, (_, i) => (i < 50 ? 4e5 : 5e5) - AIR);
  const theta = gasHeat(values, every(1, 200), AIR)(1000);
  expect(theta[49]).toBe(0);
  expect(theta[50]).toBeCloseTo(1.25 ** (2 / 7) - 1, 2);
  // at constant pressure the gas cools with gamma tau
  const quick = gasHeat(values, every(1, 200), AIR)(20);
  expect(quick[50 + 28] / quick[50]).toBeCloseTo(Math.exp(-1), 3);
});

describe("gas that cools as it gives water", () => {
  test.each([15, 40, 100])("the excess temperature follows from the pressure alone, time constant %i s", (tau) => {
    const rows = thermalLog(tau, 3600);
    const theta = gasHeat(
      Float64Array.from(rows, (r) => r.p),
      every(1, rows.length),
      AIR,
    )(tau);
    const worst = rows.slice(600).reduce((most, row, i) => Math.max(most, Math.abs(theta[i + 600] - (row.warmth - 1))), 0);
    expect(worst).toBeLessThan(0.006); // of excursions of some 0.06
  });
  test.each([0, 15, 40, 100])("K = p0 Vt comes out within three per cent all the same, time constant %i s", (tau) => {
    const tank = tankOf(thermalLog(tau, 4 * 3600, 300));
    expect(Math.abs(tank.gasConstant.value / K - 1)).toBeLessThan(0.03);
    expect(tank.gasConstant.low).toBeLessThan(K);
    expect(tank.gasConstant.high).toBeGreaterThan(K);
    if (tau === 0) expect(tank.heatTime).toBe(0);
    else expect(tank.heatTime / tau).toBeGreaterThan(0.5);
  });
  test.each([1.1, 1.2])(
    "an exponent of %f is told; whether walls or pipes leave it is not: all of K lies in the interval, and with it the part that shows its heat",
    (gamma) => {
      const tank = tankOf(thermalLog(40, 4 * 3600, 100, gamma));
      expect(tank.heatShare).toBeLessThan(1);
      expect(Math.abs(tank.give.value / K - 1)).toBeLessThan(0.03);
      expect(Math.abs(tank.gasConstant.value / K - 1)).toBeLessThan(0.15); // the middle of all that pipes could be: a fifth of what gives
      expect(tank.gasConstant.low).toBeLessThan(K);
      expect(tank.gasConstant.high).toBeGreaterThan(K);
    },
  );
  test.each([0.1, 0.2])(
    "pipes that give %f of the tank's own softness count in all that gives, and lie in the doubt of the tank's own constant",
    (part) => {
      const middle = 3.6e5 + AIR;
      const tank = tankOf(thermalLog(40, 4 * 3600, 100, GAMMA, (part * K) / middle ** 2));
      expect(Math.abs(tank.give.value / ((1 + part) * K) - 1)).toBeLessThan(0.04);
      expect(Math.abs(tank.gasConstant.value / K - 1)).toBeLessThan(part / 2 + 0.05); // the middle between the part that shows its heat and all
      expect(tank.gasConstant.low).toBeLessThan(K);
      expect(tank.gasConstant.high).toBeGreaterThan(K);
    },
  );
});
