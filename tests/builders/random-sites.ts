import { type Demand, demandOf } from "../../analysis/model/demand";
import { householdDraws, steadyDraw } from "../../analysis/model/draws";
import type { SiteModel } from "../../analysis/model/site-model";
import { calmDrive, soundSite, speedFor } from "../../analysis/model/sound-site";
import { type Random, seededRandom } from "../../analysis/numerics/random";
import { PASCAL_PER_PSI as PSI } from "../../shared/units/pressure";
import { driveOf, GPM } from "./model-sites";

const between = (random: Random, low: number, high: number) => low + (high - low) * random.next();
const betweenRatios = (random: Random, low: number, high: number) => low * (high / low) ** random.next();

/** A variable-speed site by chance: size, pressure, tank, charge, drive and loop all differ; the loop from calm to brisk. */
export function randomSite(seed: number): SiteModel {
  const random = seededRandom(seed);
  const setPressure = between(random, 45, 70) * PSI;
  const ratedFlow = betweenRatios(random, 15, 80) * GPM;
  const base = soundSite({
    setPressure,
    ratedFlow,
    ratedRise: setPressure * between(random, 1.03, 1.2),
    tankVolume: betweenRatios(random, 0.25, 0.9) * 60 * ratedFlow,
    precharge: setPressure - between(random, 12, 30) * PSI,
    pipeLength: between(random, 0.8, 4),
    bore: ratedFlow > 40 * GPM ? 0.0525 : 0.041,
  });
  const slowness = betweenRatios(random, 0.7, 3);
  const control = {
    ...calmDrive(base, setPressure),
    filter: 0.5 * slowness,
    motorLag: 0.5 * slowness * between(random, 0.6, 1.4),
    interval: 0.2,
    rampUp: between(random, 2, 5),
    rampDown: between(random, 2, 5),
    integralTime: betweenRatios(random, 5, 25),
    sleepDelay: between(random, 8, 50),
    sleepSpeed: speedFor(base, setPressure, between(random, 0.05, 0.1) * ratedFlow),
    boost: between(random, 1.5, 4) * PSI,
    restartPressure: setPressure - between(random, 4, 9) * PSI,
    restartDelay: between(random, 0.2, 1),
  };
  const gain = (driveOf(base).gain * betweenRatios(random, 0.5, 1.3)) / slowness;
  const sensor = { ...base.sensor, fromTank: between(random, 0, 0.3) };
  return { ...base, control: { ...control, gain }, sensor };
}

/** Half a day to a day of households scaled to the pump, and two steady draws. */
export function randomDemand(site: SiteModel, duration: number, seed: number): Demand {
  const random = seededRandom(seed + 7919);
  const homes = Math.max(1, Math.round((site.pump.ratedFlow / GPM / 8) * between(random, 0.6, 1.2)));
  const steady = [0.3, 0.65].flatMap((at) => {
    const from = duration * at + between(random, 0, 600);
    return steadyDraw(from, from + 1500, site.pump.ratedFlow * between(random, 0.15, 0.7));
  });
  return demandOf([...householdDraws(homes, duration, seed, 6), ...steady], driveOf(site).setPressure);
}
