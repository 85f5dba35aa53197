import { type DemandEvent, demandOf } from "../../analysis/model/demand";
import { householdDraws, steadyDraw } from "../../analysis/model/draws";
import { type SimulatedVisit, simulateSite } from "../../analysis/model/simulate-site";
import type { SiteModel } from "../../analysis/model/site-model";
import { soundSite, speedFor } from "../../analysis/model/sound-site";
import { PASCAL_PER_PSI as PSI } from "../../shared/units/pressure";
import { driveOf, GALLON, GPM } from "./model-sites";

/** The sample visits, all invented: no such houses exist. Written to sample-data/visits by `npm run samples`. */
export type SampleVisit = { readonly name: string; readonly site: Readonly<Record<string, unknown>>; readonly visit: () => SimulatedVisit };

const HOUR = 3600;
const DAY = 24 * HOUR;

/** Six houses on a shared borehole with a steep pump, a 26 gal tank and a slow drive. */
function hillside(
  start: string,
  charge: number,
  drive: { gain: number; integralTime: number; sleepDelay: number; filter: number },
): SiteModel {
  const base = soundSite({
    setPressure: 60 * PSI,
    ratedFlow: 40 * GPM,
    ratedRise: 66 * PSI,
    tankVolume: 26 * GALLON,
    precharge: charge * PSI,
    pipeLength: 2.4,
    bore: 0.0525,
  });
  const pump = { ...base.pump, shutoff: 175 * PSI, steepness: (109 * PSI) / (40 * GPM) ** 2 };
  const site = { ...base, pump };
  const control = {
    ...driveOf(base),
    ...drive,
    motorLag: 1.8,
    interval: 0.5,
    rampUp: 4,
    rampDown: 4,
    boost: 3 * PSI,
    restartPressure: 52 * PSI,
    sleepSpeed: speedFor(site, 60 * PSI, 2 * GPM),
  };
  const sensor = { ...base.sensor, fromTank: 0.6 };
  const logger = { ...base.logger, interval: 2, clock: { kind: "absolute", epoch: Date.parse(start) / 1000, zone: null } } as const;
  return { ...site, control, sensor, logger };
}

/** A trickle at night, six sprinkler zones at night, a drip line in the evening, and what the houses draw. */
export function hillsideDraws(days: number, seed: number): readonly DemandEvent[] {
  const daily = Array.from({ length: days }, (_, day) => {
    const at = (hour: number) => day * DAY + hour * HOUR;
    const zones = [39, 4, 38, 4, 39, 4].flatMap((gpm, i) => steadyDraw(at(3.3) + i * 480, at(3.3) + (i + 1) * 480, gpm * GPM));
    return [...steadyDraw(at(0.2), at(3.2), 0.45 * GPM), ...zones, ...steadyDraw(at(18.5), at(21.75), 4.5 * GPM)];
  });
  return [...daily.flat(), ...householdDraws(6, days * DAY, seed)];
}

const FACTS = {
  setPressure: "60 psi",
  pumpRatedFlow: "40 gpm",
  motorPower: "3 hp",
  pump: "variable-speed",
  restartPressure: "52 psi",
  tankVolume: "26 gal",
  precharge: "43 psi",
  tankRatedPressure: "200 psi",
  sensorToTank: "2 ft",
  pipeInsideDiameter: "2.07 in",
  flowMeter: "after-tank",
  altitude: "210 m",
  limits: { startsPerHour: 10, driftAtSteadyFlow: "5 psi", oscillationPeakToPeak: "2 psi", band: "3 psi" },
};

const hillsideVisit = (site: SiteModel, days: number, seed: number) => () =>
  simulateSite(site, demandOf(hillsideDraws(days, seed), 60 * PSI), days * DAY, seed);

export const BEFORE = hillside("2026-03-02T00:00:00Z", 3, { gain: 5.6e-6, integralTime: 150, sleepDelay: 20, filter: 2.6 });
export const AFTER = hillside("2026-04-13T00:00:00Z", 43, { gain: 3.4e-6, integralTime: 20, sleepDelay: 60, filter: 0.6 });

/** A small farm shop: sound tank, sensor and loop. */
function orchard(): SiteModel {
  const base = soundSite({
    setPressure: 50 * PSI,
    ratedFlow: 25 * GPM,
    ratedRise: 55 * PSI,
    tankVolume: 20 * GALLON,
    precharge: 33 * PSI,
    pipeLength: 1.5,
    bore: 0.041,
  });
  const control = { ...driveOf(base), sleepDelay: 45, restartPressure: 44 * PSI, boost: 3 * PSI };
  const logger = {
    ...base.logger,
    interval: 2,
    clock: { kind: "absolute", epoch: Date.parse("2026-05-18T00:00:00Z") / 1000, zone: null },
  } as const;
  return { ...base, control, logger };
}

export const HEALTHY = orchard();
const orchardDraws = (): readonly DemandEvent[] => [
  ...householdDraws(3, DAY, 12),
  ...steadyDraw(8 * HOUR, 11 * HOUR, 6 * GPM),
  ...steadyDraw(14 * HOUR, 15.5 * HOUR, 12 * GPM),
];

export const SAMPLE_VISITS: readonly SampleVisit[] = [
  { name: "hillside-before", site: { name: "Hillside shared borehole (invented)", ...FACTS }, visit: hillsideVisit(BEFORE, 3, 81) },
  { name: "hillside-after", site: { name: "Hillside shared borehole (invented)", ...FACTS }, visit: hillsideVisit(AFTER, 2, 72) },
  {
    name: "orchard-healthy",
    site: {
      ...FACTS,
      name: "Orchard farm shop (invented)",
      setPressure: "50 psi",
      pumpRatedFlow: "25 gpm",
      motorPower: "1.5 hp",
      restartPressure: "44 psi",
      tankVolume: "20 gal",
      precharge: "33 psi",
      tankRatedPressure: "125 psi",
      pipeInsideDiameter: "1.61 in",
      altitude: "40 m",
    },
    visit: () => simulateSite(HEALTHY, demandOf(orchardDraws(), 50 * PSI), DAY, 73),
  },
];
