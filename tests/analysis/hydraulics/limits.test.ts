import { describe, expect, test } from "vitest";
import { allowedStarts } from "../../../analysis/hydraulics/allowed-starts";
import { cycleTime, shortestCycleTime } from "../../../analysis/hydraulics/cycle-time";
import { drawdown } from "../../../analysis/hydraulics/drawdown";
import { frictionFactor } from "../../../analysis/hydraulics/friction-factor";
import { gasConstant, prechargeFromGasConstant, volumeFromGasConstant } from "../../../analysis/hydraulics/gas-constant";
import { headLoss, quadraticResistance } from "../../../analysis/hydraulics/head-loss";
import { fromLiveZero, toLiveZero } from "../../../analysis/hydraulics/live-zero-signal";
import { calmSetting, slowSwing } from "../../../analysis/hydraulics/loop-limits";
import { orificeFlow } from "../../../analysis/hydraulics/orifice-flow";
import { curveFromRatedPoint, pumpFlow, pumpRise } from "../../../analysis/hydraulics/pump-curve";
import { waterHeld } from "../../../analysis/hydraulics/water-held";
import { atmosphereAt } from "../../../shared/site/atmosphere";
import { absolutePascal, gaugePascal, pascalDifference } from "../../../shared/units/pressure";
import { cubicMetre, cubicMetrePerSecond, metre, seconds, watt } from "../../../shared/units/quantity";

const pipe = { length: metre(10), bore: metre(0.04), roughness: metre(4.6e-5) };

describe("where an equation ends", () => {
  test("a tank below its precharge gives nothing, and one above gives only down to it", () => {
    expect(drawdown(cubicMetre(0.1), absolutePascal(4e5), absolutePascal(3e5), absolutePascal(2e5))).toBe(0);
    const all = waterHeld(cubicMetre(0.1), absolutePascal(4e5), absolutePascal(5e5));
    expect(drawdown(cubicMetre(0.1), absolutePascal(4e5), absolutePascal(5e5), absolutePascal(1e5))).toBeCloseTo(all, 12);
  });

  test("a caller's mistake names its numbers", () => {
    expect(() => drawdown(cubicMetre(0.1), absolutePascal(4e5), absolutePascal(1e5), absolutePascal(2e5))).toThrow(/200000/);
    expect(() => atmosphereAt(metre(20000))).toThrow(RangeError);
    expect(() => gasConstant(cubicMetre(-1), absolutePascal(1))).toThrow(RangeError);
    expect(() => allowedStarts(watt(0), 2)).toThrow(RangeError);
    expect(() => cycleTime(cubicMetre(Number.NaN), cubicMetrePerSecond(1), cubicMetrePerSecond(1))).toThrow(RangeError);
  });

  test("volume and precharge come back from the gas constant", () => {
    const constant = gasConstant(cubicMetre(0.1), absolutePascal(4e5));
    expect(prechargeFromGasConstant(constant, cubicMetre(0.1))).toBeCloseTo(4e5, 6);
    expect(volumeFromGasConstant(constant, absolutePascal(4e5))).toBeCloseTo(0.1, 12);
  });

  test("the shortest cycle is at half the pump's flow", () => {
    const at = (demand: number) => cycleTime(cubicMetre(0.1), cubicMetrePerSecond(0.002), cubicMetrePerSecond(demand));
    expect(at(0.001)).toBeCloseTo(shortestCycleTime(cubicMetre(0.1), cubicMetrePerSecond(0.002)), 9);
    expect(Math.min(at(0.0008), at(0.0012))).toBeGreaterThan(at(0.001));
    expect(at(0)).toBe(Number.POSITIVE_INFINITY);
    expect(at(0.002)).toBe(Number.POSITIVE_INFINITY);
    // A draw above what the pump gives never lets it stop: no cycle, and no negative time.
    expect(at(0.003)).toBe(Number.POSITIVE_INFINITY);
  });

  test("friction is laminar below Re 2000, has no jump, and turns with the flow", () => {
    expect(frictionFactor(1000, 0.001)).toBeCloseTo(0.064, 12);
    for (const re of [2000, 4000]) expect(frictionFactor(re + 1e-6, 0.001)).toBeCloseTo(frictionFactor(re, 0.001), 6);
    expect(headLoss(pipe, cubicMetrePerSecond(-1e-3))).toBe(-headLoss(pipe, cubicMetrePerSecond(1e-3)));
    expect(headLoss(pipe, cubicMetrePerSecond(0))).toBe(0);
    expect(quadraticResistance(pipe, cubicMetrePerSecond(1e-3)) * 1e-6).toBeCloseTo(headLoss(pipe, cubicMetrePerSecond(1e-3)), 6);
  });

  test("a pump curve turned round gives its flow back, and none where the pressure is too high", () => {
    const curve = curveFromRatedPoint(cubicMetrePerSecond(0.002), pascalDifference(4e5));
    const rise = pumpRise(curve, 0.9, cubicMetrePerSecond(0.0015));
    expect(pumpFlow(curve, 0.9, rise)).toBeCloseTo(0.0015, 12);
    expect(pumpRise(curve, 1, cubicMetrePerSecond(0.004))).toBeCloseTo(0, 6);
    expect(pumpFlow(curve, 0.5, 4e5)).toBe(0);
  });

  test("starts fall as power rises, 1 hp serves for less, and above 100 hp there is no answer", () => {
    expect(allowedStarts(watt(200), 2)?.perHour).toBe(15);
    const middle = allowedStarts(watt(7 * 745.6998715822702), 4)!.perHour;
    expect(middle).toBeGreaterThan(12.5);
    expect(middle).toBeLessThan(16.3);
    expect(allowedStarts(watt(200 * 746), 2)).toBeNull();
  });

  test("a signal goes to current and back", () => expect(fromLiveZero(toLiveZero(3.3e5, 0, 1e6), 0, 1e6)).toBeCloseTo(3.3e5, 6));

  test("nothing leaves a hole without pressure", () => expect(orificeFlow(1e-5, gaugePascal(-5))).toBe(0));

  test("the calm setting of the reference example: 6.42 per unit and 4 s", () => {
    const calm = calmSetting(0.1558, seconds(0.5));
    expect(calm.gain).toBeCloseTo(6.42, 2);
    expect(calm.integralTime).toBe(4);
  });

  test("a loop turned down too far swings slowly: damping 0.316, 209 s", () => {
    const swing = slowSwing(1, 0.02, seconds(20));
    expect(swing.damping).toBeCloseTo(0.316, 3);
    expect(swing.period).toBeCloseTo(209, 0);
    expect(slowSwing(1, 0.2, seconds(20)).period).toBeNull();
  });
});
