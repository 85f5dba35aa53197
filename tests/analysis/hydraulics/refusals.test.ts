import { describe, expect, test } from "vitest";
import { atSpeed } from "../../../analysis/hydraulics/affinity-laws";
import { allowedStarts } from "../../../analysis/hydraulics/allowed-starts";
import { cycleTime, drawdownForCycle, shortestCycleTime } from "../../../analysis/hydraulics/cycle-time";
import { drawdown } from "../../../analysis/hydraulics/drawdown";
import { colebrook, frictionFactor, haaland } from "../../../analysis/hydraulics/friction-factor";
import { gasConstant, prechargeFromGasConstant, volumeFromGasConstant } from "../../../analysis/hydraulics/gas-constant";
import { headLoss, quadraticResistance } from "../../../analysis/hydraulics/head-loss";
import { inertance } from "../../../analysis/hydraulics/inertance";
import { leakFromDecay } from "../../../analysis/hydraulics/leak-from-decay";
import { fromLiveZero, toLiveZero } from "../../../analysis/hydraulics/live-zero-signal";
import { calmSetting, slowSwing, ultimateOfIntegrator, ultimateOfLag } from "../../../analysis/hydraulics/loop-limits";
import { minorLoss } from "../../../analysis/hydraulics/minor-loss";
import { leakRatio, orificeFlow } from "../../../analysis/hydraulics/orifice-flow";
import { prechargeAtTemperature } from "../../../analysis/hydraulics/precharge-at-temperature";
import { curveFromRatedPoint } from "../../../analysis/hydraulics/pump-curve";
import { shutoffSpeed } from "../../../analysis/hydraulics/shutoff-speed";
import { surgePeriod } from "../../../analysis/hydraulics/surge-period";
import { tankCompliance } from "../../../analysis/hydraulics/tank-compliance";
import { tankForStarts } from "../../../analysis/hydraulics/tank-for-starts";
import { waterHeld } from "../../../analysis/hydraulics/water-held";
import { vapourPressure, waterDensity, waterViscosity } from "../../../analysis/hydraulics/water-properties";
import { absolutePascal as abs, gaugePascal as gauge, pascalDifference as rise } from "../../../shared/units/pressure";
import { cubicMetrePerSecond as flow, joule, kelvin, cubicMetre as m3, metre, seconds as s, watt } from "../../../shared/units/quantity";

/** What an argument must be: above zero, not below zero, or between two bounds that are allowed. */
type Need = "positive" | "not-negative" | readonly [least: number, most: number];
type Law = readonly [name: string, call: (...x: number[]) => unknown, sound: readonly number[], needs: readonly (Need | null)[]];

const refusedBy = (need: Need): readonly number[] => {
  if (need === "positive") return [0, -1, Number.NaN];
  if (need === "not-negative") return [-1e-9, Number.NaN];
  const [least, most] = need;
  return [least - 1e-9, most + 1e-9, Number.NaN];
};
const edgesOf = (need: Need): readonly number[] => (need === "positive" ? [] : need === "not-negative" ? [0] : need);

const pipe = (length: number, bore: number) => ({ length: metre(length), bore: metre(bore), roughness: metre(1e-5) });
/** Where each law of this room holds: its arguments in order. One argument at a time is put outside; all others stay sound. */
const LAWS: readonly Law[] = [
  ["atSpeed", (n) => atSpeed({ flow: flow(1), head: metre(1), power: watt(1) }, n), [0.8], ["not-negative"]],
  ["allowedStarts", (p) => allowedStarts(watt(p), 2), [1500], ["positive"]],
  ["cycleTime", (v, q, d) => cycleTime(m3(v), flow(q), flow(d)), [0.02, 0.002, 0.001], ["positive", "positive", "not-negative"]],
  ["shortestCycleTime", (v, q) => shortestCycleTime(m3(v), flow(q)), [0.02, 0.002], ["positive", "positive"]],
  ["drawdownForCycle", (q, t) => drawdownForCycle(flow(q), s(t)), [0.002, 60], ["positive", "positive"]],
  ["drawdown", (v, p, h, l) => drawdown(m3(v), abs(p), abs(h), abs(l)), [0.1, 3e5, 5e5, 4e5], ["positive", "positive", null, "positive"]],
  ["frictionFactor", (re, k) => frictionFactor(re, k), [1e5, 0.001], ["positive", [0, 0.05]]],
  ["gasConstant", (v, p) => gasConstant(m3(v), abs(p)), [0.1, 3e5], ["positive", "positive"]],
  ["prechargeFromGasConstant", (k, v) => prechargeFromGasConstant(joule(k), m3(v)), [3e4, 0.1], ["positive", "positive"]],
  ["volumeFromGasConstant", (k, p) => volumeFromGasConstant(joule(k), abs(p)), [3e4, 3e5], ["positive", "positive"]],
  ["headLoss", (l, d) => headLoss(pipe(l, d), flow(1e-3)), [10, 0.04], ["not-negative", "positive"]],
  ["quadraticResistance", (q) => quadraticResistance(pipe(10, 0.04), flow(q)), [1e-3], ["positive"]],
  ["inertance", (l, d, rho) => inertance(metre(l), metre(d), rho), [10, 0.04, 998], ["not-negative", "positive", "positive"]],
  [
    "leakFromDecay",
    (k, b, a, t) => leakFromDecay(joule(k), abs(b), abs(a), s(t)),
    [3e4, 5e5, 4e5, 60],
    ["positive", "positive", "positive", "positive"],
  ],
  ["ultimateOfIntegrator", (m, d) => ultimateOfIntegrator(m, s(d)), [0.1, 1], ["positive", "positive"]],
  ["ultimateOfLag", (g, l, d) => ultimateOfLag(g, s(l), s(d)), [1, 10, 1], ["positive", "positive", "positive"]],
  ["calmSetting", (m, d, c) => calmSetting(m, s(d), s(c)), [0.1, 1, 1], ["positive", "not-negative", null]],
  ["slowSwing", (m, g, t) => slowSwing(m, g, s(t)), [1, 0.02, 20], ["positive", "positive", "positive"]],
  ["minorLoss", (k, d) => minorLoss(k, metre(d), flow(1e-3)), [2, 0.04], ["not-negative", "positive"]],
  ["orificeFlow", (a) => orificeFlow(a, gauge(1e5)), [1e-5], ["not-negative"]],
  ["leakRatio", (b, a) => leakRatio(gauge(b), gauge(a), 0.5), [4e5, 3e5], ["positive", "positive"]],
  [
    "prechargeAtTemperature",
    (p, a, b) => prechargeAtTemperature(abs(p), kelvin(a), kelvin(b)),
    [3e5, 288, 293],
    ["positive", "positive", "positive"],
  ],
  ["curveFromRatedPoint", (q, p) => curveFromRatedPoint(flow(q), rise(p)), [0.002, 4e5], ["positive", "positive"]],
  ["shutoffSpeed", (p, h) => shutoffSpeed(rise(p), rise(h)), [3e5, 5e5], ["positive", "positive"]],
  ["surgePeriod", (i, c) => surgePeriod(i, c), [1e6, 1e-8], ["not-negative", "not-negative"]],
  ["tankCompliance", (k, p, n) => tankCompliance(joule(k), abs(p), n), [3e4, 4e5, 1.2], ["positive", "positive", [1, 1.67]]],
  [
    "tankForStarts",
    (q, n, o, i, p) => tankForStarts(flow(q), n, abs(o), abs(i), abs(p)),
    [0.002, 10, 5e5, 4e5, 3e5],
    [null, "positive", null, null, "positive"],
  ],
  ["waterHeld", (v, p, h) => waterHeld(m3(v), abs(p), abs(h)), [0.1, 3e5, 5e5], ["positive", "positive", "positive"]],
  ["water properties, waterDensity", (t) => waterDensity(t), [20], [[0, 100]]],
  ["water properties, vapourPressure", (t) => vapourPressure(t), [20], [[0, 100]]],
  ["water properties, waterViscosity", (t) => waterViscosity(t), [20], [[0, 100]]],
];

describe.each(LAWS)("%s", (name, call, sound, needs) => {
  const withOne = (at: number, value: number) => sound.map((x, i) => (i === at ? value : x));
  const cases = needs.flatMap((need, at) => (need === null ? [] : refusedBy(need).map((value) => [at, value] as const)));

  test("takes what it holds for, to its very edges", () => {
    expect(() => call(...sound)).not.toThrow();
    needs.forEach((need, at) => {
      if (need !== null)
        for (const edge of edgesOf(need)) expect(() => call(...withOne(at, edge)), `argument ${at} at ${edge}`).not.toThrow();
    });
  });
  test.each(cases)("refuses argument %i at %d, and names it", (at, value) => {
    expect(() => call(...withOne(at, value))).toThrow(RangeError);
    expect(() => call(...withOne(at, value))).toThrow(name.split(",")[0]);
  });
});

describe("bounds that two arguments share", () => {
  const tank = (cutOut: number, cutIn: number, precharge: number) =>
    tankForStarts(flow(0.002), 10, abs(cutOut), abs(cutIn), abs(precharge));
  test("a tank must be charged no higher than the cut-in, and the cut-in lie below the cut-out", () => {
    expect(tank(5e5, 4e5, 4e5)).toBeGreaterThan(0);
    expect(() => tank(5e5, 4e5, 4.1e5)).toThrow(RangeError);
    expect(() => tank(4e5, 4e5, 3e5)).toThrow(RangeError);
  });
  test("a drawdown ends no higher than it begins; where it ends as it began nothing was drawn", () => {
    expect(drawdown(m3(0.1), abs(3e5), abs(4e5), abs(4e5))).toBe(0);
    expect(() => drawdown(m3(0.1), abs(3e5), abs(4e5), abs(4.1e5))).toThrow(RangeError);
  });
  test("a calm setting needs some time to answer in", () => {
    expect(calmSetting(0.1, s(0), s(1)).integralTime).toBe(4);
    expect(() => calmSetting(0.1, s(1), s(-1))).toThrow(RangeError);
    expect(() => calmSetting(0.1, s(0), s(0))).toThrow(RangeError);
  });
  test("a signal's range has two ends, and neither need be zero", () => {
    expect(() => toLiveZero(1, 5, 5)).toThrow(RangeError);
    expect(toLiveZero(3e5, 2e5, 6e5)).toBeCloseTo(0.008, 12); // a quarter of 16 mA above 4 mA
    expect(fromLiveZero(0.008, 2e5, 6e5)).toBeCloseTo(3e5, 6);
  });
});

describe("between the laws that are joined", () => {
  test("friction midway between laminar and turbulent is the mean of both ends", () => {
    const middle = (64 / 2000 + colebrook(4000, 0.001)) / 2;
    expect(frictionFactor(3000, 0.001)).toBeCloseTo(middle, 12);
  });
  test("the explicit formula of Haaland (1983) lies within 2 % of Colebrook and White, as published", () => {
    for (const re of [4e3, 1e5, 1e7]) for (const k of [1e-6, 1e-3, 0.05]) expect(haaland(re, k) / colebrook(re, k)).toBeCloseTo(1, 1.4);
    expect(Math.abs(haaland(1e5, 0.001) / colebrook(1e5, 0.001) - 1)).toBeLessThan(0.02);
  });
  test("a flow turned round loses as much the other way, and a narrower bore more by its fourth power", () => {
    const loss = (bore: number, q: number) => minorLoss(2, metre(bore), flow(q));
    expect(loss(0.04, -1e-3)).toBe(-loss(0.04, 1e-3));
    expect(loss(0.02, 1e-3) / loss(0.04, 1e-3)).toBeCloseTo(16, 9);
    // K = 2, 1 L/s through 40 mm: v = 0.7958 m/s, K rho v^2 / 2 = 632.1 Pa
    expect(loss(0.04, 1e-3)).toBeCloseTo(632.1, 0);
  });
});
