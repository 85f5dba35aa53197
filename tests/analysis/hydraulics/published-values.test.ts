import { expect, test } from "vitest";
import { atSpeed } from "../../../analysis/hydraulics/affinity-laws";
import { allowedStarts } from "../../../analysis/hydraulics/allowed-starts";
import { cycleTime, drawdownForCycle } from "../../../analysis/hydraulics/cycle-time";
import { drawdown } from "../../../analysis/hydraulics/drawdown";
import { colebrook, haaland, swameeJain } from "../../../analysis/hydraulics/friction-factor";
import { gasConstant } from "../../../analysis/hydraulics/gas-constant";
import { headLoss } from "../../../analysis/hydraulics/head-loss";
import { inertance } from "../../../analysis/hydraulics/inertance";
import { leakFromDecay } from "../../../analysis/hydraulics/leak-from-decay";
import { fromLiveZero, liveZeroState } from "../../../analysis/hydraulics/live-zero-signal";
import { ultimateOfIntegrator, ultimateOfLag } from "../../../analysis/hydraulics/loop-limits";
import { minorLoss } from "../../../analysis/hydraulics/minor-loss";
import { leakRatio, orificeFlow } from "../../../analysis/hydraulics/orifice-flow";
import { prechargeAtTemperature } from "../../../analysis/hydraulics/precharge-at-temperature";
import { curveFromRatedPoint } from "../../../analysis/hydraulics/pump-curve";
import { shutoffSpeed } from "../../../analysis/hydraulics/shutoff-speed";
import { STANDARD_GRAVITY } from "../../../analysis/hydraulics/standard-gravity";
import { surgePeriod } from "../../../analysis/hydraulics/surge-period";
import { tankCompliance } from "../../../analysis/hydraulics/tank-compliance";
import { tankForStarts } from "../../../analysis/hydraulics/tank-for-starts";
import { waterHeld } from "../../../analysis/hydraulics/water-held";
import { vapourPressure, waterDensity, waterViscosity } from "../../../analysis/hydraulics/water-properties";
import { atmosphereAt } from "../../../shared/site/atmosphere";
import {
  absolutePascal,
  gaugePascal,
  PASCAL_PER_PSI as PSI,
  pascalDifference,
  STANDARD_ATMOSPHERE,
  toAbsolute,
} from "../../../shared/units/pressure";
import { cubicMetre, cubicMetrePerSecond, joule, kelvin, metre, seconds, watt } from "../../../shared/units/quantity";
import published from "./published-values.json";

const GAL = 3.785411784e-3;
const GPM = GAL / 60;
const FOOT = 0.3048;
const HP = 745.6998715822702;
const FEET_OF_WATER = 2989.06692;
const psig = (p: number, air = STANDARD_ATMOSPHERE) => toAbsolute(gaugePascal(p * PSI), air);
/** The design manual rounds the atmosphere to 14.7 psi. */
const psigManual = (p: number) => absolutePascal((p + 14.7) * PSI);

type Given = (name: string) => number;
const tank = (given: Given, charge = given("Pc")) => gasConstant(cubicMetre(given("Vt") * GAL), psig(charge));
const forStarts = (given: Given, precharge: number) =>
  tankForStarts(
    cubicMetrePerSecond(given("Qp") * GPM),
    given("Nc"),
    psigManual(given("P1_off")),
    psigManual(given("P2_on")),
    psigManual(precharge),
  ) / GAL;
const nema = (given: Given) => allowedStarts(watt(given("P") * HP), given("poles") as 2 | 4 | 6)!;
/** 60 F water as the table of friction losses takes it. */
const steelLoss = (given: Given) => {
  const pipe = { length: metre(100 * FOOT), bore: metre(1.61 * 0.0254), roughness: metre(0.00015 * FOOT) };
  return headLoss(pipe, cubicMetrePerSecond(given("Q") * GPM), 1.217e-5 * FOOT ** 2) / (998.2 * STANDARD_GRAVITY) / FOOT;
};
const surge = (given: Given) =>
  surgePeriod(inertance(metre(given("L")), metre(given("D"))), tankCompliance(tank(given), psig(given("P0")), given("n")));
const pump = (given: Given) => atSpeed({ flow: cubicMetrePerSecond(100), head: metre(140), power: watt(5) }, given("s"));
const ratio = (given: Given) => leakRatio(gaugePascal(given("P0")), gaugePascal(given("P1")), given("N1"));
const EARTH_RADIUS = 6356766;

const ANSWERS: Readonly<Record<string, (given: Given) => number>> = {
  U15: (g) => atmosphereAt(metre((EARTH_RADIUS * g("Z")) / (EARTH_RADIUS + g("Z")))),
  U17: (g) => psig(g("p_g"), atmosphereAt(metre(g("h")))) / PSI,
  W04: (g) => waterDensity(g("t")),
  W05: (g) => vapourPressure(g("t")),
  W06: (g) => waterViscosity(g("t")),
  T01: (g) => drawdown(cubicMetre(g("Vt") * GAL), psig(g("Pc")), psig(g("P_high")), psig(g("P_low"))) / GAL,
  T02: (g) => drawdown(cubicMetre(1), psig(g("Pc")), psig(g("P_high")), psig(g("P_low"))),
  T03: (g) => drawdown(cubicMetre(1), psig(g("P1")), psig(g("P2")), psig(g("P1"))),
  T04: (g) => forStarts(g, g("P2_on")),
  T05: (g) => forStarts(g, g("P2_on") - 5),
  T06: (g) => (tankCompliance(tank(g), psig(g("P"))) * PSI) / GAL,
  T07: (g) => (tankCompliance(tank(g), psig(g("P"))) * PSI) / GAL,
  T08: (g) => waterHeld(cubicMetre(g("Vt") * GAL), psig(g("Pc")), psig(g("P"))) / GAL,
  T09: (g) => tankCompliance(joule(g("V0") * psig(g("P"))), psig(g("P")), g("n")),
  T10: (g) => (g("dQ") * GPM) / tankCompliance(tank(g), psig(g("P"))) / PSI,
  T11: (g) => {
    const air = atmosphereAt(metre(g("h")));
    return drawdown(cubicMetre(g("Vt") * GAL), psig(g("Pc"), air), psig(g("P_high"), air), psig(g("P_low"), air)) / GAL;
  },
  T12: (g) => (prechargeAtTemperature(psig(g("p1")), kelvin(g("T1") + 273.15), kelvin(g("T2") + 273.15)) - STANDARD_ATMOSPHERE) / PSI,
  S01: (g) => cycleTime(cubicMetre(g("V")), cubicMetrePerSecond(g("Qp")), cubicMetrePerSecond(g("Qi"))),
  S02: (g) => drawdownForCycle(cubicMetrePerSecond(1), seconds(60 / g("Nc"))),
  S03: (g) => drawdownForCycle(cubicMetrePerSecond(1), seconds(60 / g("Nc"))),
  S07: (g) => nema(g).perHour,
  S08: (g) => nema(g).leastRest,
  S09: (g) => nema(g).perHour,
  S10: (g) => nema(g).leastRest,
  S11: (g) => nema(g).perHour,
  H01: (g) => colebrook(g("Re"), g("eD")),
  H02: (g) => haaland(g("Re"), g("eD")),
  H03: (g) => swameeJain(g("Re"), g("eD")),
  H04: (g) => {
    const bore = metre(g("D") * FOOT);
    const flow = cubicMetrePerSecond(g("V") * FOOT * (Math.PI / 4) * bore ** 2);
    const pipe = { length: metre(g("L") * FOOT), bore, roughness: metre(g("eD") * bore) };
    return headLoss(pipe, flow, g("nu") * FOOT ** 2) / (998.2 * STANDARD_GRAVITY) / FOOT;
  },
  H05: steelLoss,
  H06: steelLoss,
  H09: (g) => minorLoss(g("K"), metre(1), cubicMetrePerSecond((g("v") * Math.PI) / 4)) / (998.2 * STANDARD_GRAVITY),
  P06: (g) => inertance(metre(g("L")), metre(g("D")), g("rho")),
  P07: surge,
  P08: surge,
  Q01: (g) => pump(g).flow,
  Q02: (g) => pump(g).head,
  Q03: (g) => pump(g).power,
  Q04: () => curveFromRatedPoint(cubicMetrePerSecond(1), pascalDifference(1)).shutoff,
  Q06: (g) => shutoffSpeed(pascalDifference(g("p_set") * PSI), pascalDifference(g("H0") * FEET_OF_WATER)),
  K01: (g) => ultimateOfLag(g("k"), seconds(g("tau")), seconds(g("theta"))).gain,
  K02: (g) => ultimateOfLag(g("k"), seconds(g("tau")), seconds(g("theta"))).period,
  K09: (g) => ultimateOfIntegrator(1, seconds(g("theta"))).period,
  L01: ratio,
  L02: ratio,
  L03: ratio,
  L04: (g) => orificeFlow(g("Cd") * (Math.PI / 4) * (g("d") / 1000) ** 2, gaugePascal(g("h") * 998.2 * STANDARD_GRAVITY)) * 1000,
  L06: (g) => leakFromDecay(tank(g), psig(g("P1")), psig(g("P2")), seconds(g("t") * 60)) / GPM,
  I01: (g) => fromLiveZero(g("i") / 1000, g("lo"), g("hi")),
  I02: () => (liveZeroState(0.0036) === "failed-low" && liveZeroState(0.00361) === "unclear" ? 3.6 : Number.NaN),
  I03: () => (liveZeroState(0.021) === "failed-high" && liveZeroState(0.02099) === "unclear" ? 21 : Number.NaN),
  I04: () => (liveZeroState(0.0038) === "measuring" && liveZeroState(0.00379) === "unclear" ? 3.8 : Number.NaN),
  I05: () => (liveZeroState(0.0205) === "measuring" && liveZeroState(0.02051) === "unclear" ? 20.5 : Number.NaN),
};

for (const entry of published.entries) {
  test(`${entry.id} ${entry.quantity} (${entry.source})`, () => {
    const given: Given = (name) => {
      const input = entry.inputs.find((i) => i.name === name);
      if (input === undefined) throw new Error(`${entry.id} has no input ${name}`);
      return Number(input.value);
    };
    const tolerance: { rel?: number; abs?: number } = entry.tolerance;
    const allowed = Math.max((tolerance.rel ?? 0) * Math.abs(entry.expected), tolerance.abs ?? 0, 1e-12 * Math.abs(entry.expected));
    const answer = ANSWERS[entry.id](given);
    expect(Math.abs(answer - entry.expected), `${answer} against ${entry.expected} ${entry.unit}`).toBeLessThanOrEqual(allowed);
  });
}
