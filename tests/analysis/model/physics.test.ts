import { describe, expect, test } from "vitest";
import { cycleTime } from "../../../analysis/hydraulics/cycle-time";
import { drawdown } from "../../../analysis/hydraulics/drawdown";
import { leakFromDecay } from "../../../analysis/hydraulics/leak-from-decay";
import { surgePeriod } from "../../../analysis/hydraulics/surge-period";
import { demandOf } from "../../../analysis/model/demand";
import { householdDraws, steadyDraw } from "../../../analysis/model/draws";
import { makePlant, startState, stepPlant } from "../../../analysis/model/plant";
import { simulateSite } from "../../../analysis/model/simulate-site";
import type { SiteModel } from "../../../analysis/model/site-model";
import { fullFlow, withSwitch } from "../../../analysis/model/sound-site";
import { nodeCompliance, nodePressure, nodeStored, tankNode } from "../../../analysis/model/tank";
import { PREDICTION_STEPS } from "../../../analysis/model/what-if/predict";
import { gaugePascal, PASCAL_PER_PSI as PSI, STANDARD_ATMOSPHERE, toAbsolute } from "../../../shared/units/pressure";
import { cubicMetre, cubicMetrePerSecond, joule, seconds } from "../../../shared/units/quantity";
import { exampleSite, GALLON, GPM, withCharge, withDrive, withGain, withTankAway } from "../../builders/model-sites";

const SET = 58 * PSI;
const absolute = (p: number) => toAbsolute(gaugePascal(p), STANDARD_ATMOSPHERE);
/** No stretch beside the gas, exact sensor: for comparison with closed forms. */
const ideal = (site: SiteModel): SiteModel => ({
  ...site,
  manifoldCompliance: 1e-12,
  tank: { ...site.tank, stiffness: 1e-12 },
  sensor: { ...site.sensor, noise: 0, step: 0, lag: 0 },
});
/** A drive that never wakes. */
const off = (site: SiteModel): SiteModel => withDrive(site, { restartPressure: -1e9 });
const pressures = (visit: ReturnType<typeof simulateSite>) => visit.samples.columns.get("pressure")!;

describe("the tank", () => {
  test("node pressure and stored volume are each other's inverse, above and below the precharge", () => {
    const node = tankNode(exampleSite());
    for (const psi of [1, 20, 39, 41, 60, 120]) {
      expect(nodePressure(node, nodeStored(node, psi * PSI, 1), 1) / PSI).toBeCloseTo(psi, 9);
    }
  });

  test("its softness is the slope of stored volume (Boyle), and next to nothing below the precharge", () => {
    const node = tankNode(exampleSite());
    const slope = (p: number) => (nodeStored(node, p + 50, 1) - nodeStored(node, p - 50, 1)) / 100;
    for (const psi of [20, 45, 70]) expect(nodeCompliance(node, psi * PSI, 1) / slope(psi * PSI)).toBeCloseTo(1, 6);
    expect(nodeCompliance(node, 30 * PSI, 1)).toBeLessThan(0.05 * nodeCompliance(node, 45 * PSI, 1));
  });

  test("a draw with the pump off leaves the pressure of the gas law", () => {
    const visit = simulateSite(ideal(off(exampleSite())), demandOf(steadyDraw(0, 60, 2 * GPM), SET, 0), 60, 1, { startPressure: SET });
    const low = pressures(visit)[60];
    const expected = drawdown(cubicMetre(20 * GALLON), absolute(40 * PSI), absolute(SET), absolute(low));
    expect(expected / (60 * 2 * GPM)).toBeCloseTo(1, 4);
  });

  test("pressure falls away when it runs empty", () => {
    const visit = simulateSite(off(exampleSite()), demandOf(steadyDraw(0, 1200, 4 * GPM), SET), 1200, 1, { startPressure: SET });
    const p = pressures(visit);
    const knee = p.findIndex((value) => value < 40 * PSI);
    expect(p[knee - 11] - p[knee - 1]).toBeLessThan(6 * PSI);
    expect(p[knee + 10]).toBeLessThan(20 * PSI);
  });

  test("a leak with the pump off falls as the pressure-decay equation says", () => {
    const site = ideal({ ...off(exampleSite()), systemLeak: 0.02 * GPM });
    const visit = simulateSite(site, demandOf([], SET), 3600, 1, { startPressure: SET });
    const p = pressures(visit);
    const flow = leakFromDecay(joule(visit.truth.gasConstant), absolute(p[0]), absolute(p[3600]), seconds(3600));
    expect((flow * 3600) / visit.truth.volumes.leaked).toBeCloseTo(1, 4);
  });

  test("gas that cannot lose heat is stiffer by 1.4 for a quick squeeze (adiabatic air)", () => {
    const swing = (heatTime: number) => massSpringPeriod({ ...bench(), tank: { ...bench().tank, heatTime } }, 0.01);
    expect(swing(0) / swing(1e9)).toBeCloseTo(Math.sqrt(1.4), 2);
  });
});

/** The reference case of the surge period: 30 m of 52.5 mm bore, 20 US gal charged to 45 psi, at 60 psi; no friction. */
const bench = (): SiteModel => ({
  ...ideal(exampleSite()),
  pipe: { length: 30, bore: 0.0525, resistance: 0 },
  manifoldCompliance: 1e3, // holds its pressure
  tank: { volume: 20 * GALLON, precharge: 45 * PSI, gasLeft: 1, stiffness: 1e-13, heatTime: 0 },
});

function displaced() {
  const plant = makePlant(bench());
  const state = startState(plant, 60 * PSI);
  state.stored = nodeStored(plant.node, 60.5 * PSI, 1);
  state.tank = 60.5 * PSI;
  return { plant, state };
}

/** Period of a small swing of the column, from upward passes of the pressure through its mean. */
function massSpringPeriod(site: SiteModel, dt: number): number {
  const plant = makePlant(site);
  const { state } = displaced();
  const passes: number[] = [];
  for (let i = 0; passes.length < 6; i++) {
    const before = state.tank;
    stepPlant(plant, state, { flow: 0, exponent: 0, reference: SET, drive: 0, dt });
    if (before < 60 * PSI && state.tank >= 60 * PSI) passes.push((i + (60 * PSI - before) / (state.tank - before)) * dt);
  }
  return (passes[5] - passes[0]) / 5;
}

describe("the water column", () => {
  test("swings against the tank with T = 2 pi sqrt(I C): 8.01 s (Wylie & Streeter's period, the reference case)", () => {
    const plant = makePlant(bench());
    const closed = surgePeriod(plant.inertance, nodeCompliance(plant.node, 60 * PSI, 1));
    expect(closed).toBeCloseTo(8.01, 2);
    expect(massSpringPeriod(bench(), 0.05) / closed).toBeCloseTo(1, 3);
  });

  test("keeps its swing: half the step moves the period by under 0.1 %, and five periods take under 2 % of its height", () => {
    expect(massSpringPeriod(bench(), 0.05) / massSpringPeriod(bench(), 0.025)).toBeCloseTo(1, 3);
    const { plant, state } = displaced();
    let highest = 0;
    for (let i = 0; i < 900; i++) {
      stepPlant(plant, state, { flow: 0, exponent: 0, reference: SET, drive: 0, dt: 0.05 });
      if (i * 0.05 > 36) highest = Math.max(highest, state.tank - 60 * PSI);
    }
    expect(highest / (0.5 * PSI)).toBeGreaterThan(0.98);
    expect(highest / (0.5 * PSI)).toBeLessThan(1.02);
  });
});

describe("the pump", () => {
  test("settles where its curve meets the draw: p = shutoff - (r + R) Q^2", () => {
    const site = ideal(withSwitch(exampleSite(), 500 * PSI, 600 * PSI));
    const flow = 30 * GPM;
    const visit = simulateSite(site, demandOf(steadyDraw(0, 300, flow), SET, 0), 300, 1);
    const expected = site.pump.shutoff - (site.pump.steepness + site.pipe.resistance) * flow * flow;
    expect(pressures(visit)[299] / expected).toBeCloseTo(1, 5);
  });

  test("with a switch cycles as T = V/Qi + V/(Qp - Qi) (MIL-HDBK-1005/9A) where its flow hardly depends on pressure", () => {
    const base = ideal(exampleSite());
    const steepness = 100 * base.pump.steepness;
    const pump = { ...base.pump, steepness, shutoff: 50 * PSI + steepness * (20 * GPM) ** 2 };
    const control = { kind: "fixed-speed", cutIn: 45 * PSI, cutOut: 60 * PSI, rampUp: 0.02, rampDown: 0.02 } as const;
    const site: SiteModel = { ...base, pump, control };
    const { truth } = simulateSite(site, demandOf(steadyDraw(0, 7200, 5 * GPM), SET, 0), 7200, 1);
    const runs = truth.runs.filter((run) => run.complete);
    const measured = (runs[runs.length - 1].from - runs[0].from) / (runs.length - 1);
    const volume = drawdown(cubicMetre(20 * GALLON), absolute(40 * PSI), absolute(60 * PSI), absolute(45 * PSI));
    const expected = cycleTime(volume, cubicMetrePerSecond(fullFlow(site, 52.5 * PSI)), cubicMetrePerSecond(5 * GPM));
    expect(Math.abs(measured / expected - 1)).toBeLessThan(0.02);
  });
});

describe("the whole", () => {
  test("makes and loses no water: a day with leaks both ways balances to a millionth", () => {
    const site = { ...exampleSite(), systemLeak: 0.1 * GPM, backLeak: 0.2 * GPM };
    const { volumes } = simulateSite(site, demandOf(householdDraws(12, 86400, 3), SET), 86400, 3).truth;
    const kept = volumes.storedBefore + volumes.pumped - volumes.drawn - volumes.leaked - volumes.leakedBack;
    expect(volumes.pumped).toBeGreaterThan(5);
    expect(volumes.leakedBack).toBeGreaterThan(0.01);
    expect(Math.abs(kept - volumes.storedAfter) / volumes.pumped).toBeLessThan(1e-6);
  });

  test("half the step moves the period of a hunting loop by under 1 %", () => {
    const site = withGain(withTankAway(exampleSite(), 20), 4);
    const period = (step: number) =>
      simulateSite(site, demandOf(steadyDraw(20, 400, 10 * GPM), SET), 400, 1, { step }).truth.oscillations.at(-1)!.period;
    expect(Math.abs(period(0.05) / period(0.025) - 1)).toBeLessThan(0.01);
  });

  test("so it does with a swing of two seconds, which motor and ramp make", () => {
    for (const [times, charge, gpm] of [
      [10, 40, 5],
      [12, 40, 10],
      [6, 5, 8],
    ]) {
      const site = withDrive(withGain(withCharge(exampleSite(), charge), times), { interval: 0.1 });
      const period = (step: number) =>
        simulateSite(site, demandOf(steadyDraw(20, 400, gpm * GPM), SET), 400, 1, { step }).truth.oscillations.at(-1)!.period;
      expect(period(0.05)).toBeLessThan(3);
      expect(Math.abs(period(0.05) / period(0.0125) - 1)).toBeLessThan(0.01);
    }
  });

  test("so it is with the steps of a prediction, long while nothing moves", () => {
    const period = (site: SiteModel, share: number) => {
      const options = { step: PREDICTION_STEPS.step * share, quietStep: PREDICTION_STEPS.quietStep * share };
      return simulateSite(site, demandOf(steadyDraw(20, 600, 10 * GPM), SET), 600, 1, options).truth.oscillations.at(-1)!.period;
    };
    const slow = withDrive(withGain(exampleSite(), 3), { filter: 1.5, motorLag: 1.5 });
    for (const site of [withGain(withTankAway(exampleSite(), 20), 4), slow, withCharge(slow, 20)])
      expect(Math.abs(period(site, 1) / period(site, 0.5) - 1)).toBeLessThan(0.01);
  });

  test("and the quiet steps leave runs and pressures of a day where they are", () => {
    const demand = demandOf(householdDraws(6, 86400, 3), SET);
    const fine = simulateSite(exampleSite(), demand, 86400, 3).truth;
    const long = simulateSite(exampleSite(), demand, 86400, 3, PREDICTION_STEPS).truth;
    expect(Math.abs(long.runs.length / fine.runs.length - 1)).toBeLessThan(0.02);
    expect(Math.abs(long.lowestPressure - fine.lowestPressure)).toBeLessThan(0.3 * PSI);
    expect(Math.abs(long.highestPressure - fine.highestPressure)).toBeLessThan(0.3 * PSI);
  });
});
