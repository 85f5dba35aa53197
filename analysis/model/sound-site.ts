import { pascalDifference } from "../../shared/units/pressure";
import { cubicMetrePerSecond, metre } from "../../shared/units/quantity";
import { quadraticResistance } from "../hydraulics/head-loss";
import { curveFromRatedPoint, pumpFlow } from "../hydraulics/pump-curve";
import type { DriveModel, LoggerModel, SensorModel, SiteModel, SwitchModel } from "./site-model";

const ATMOSPHERE = 101325;
const STEEL = 4.6e-5; // m, EPANET 2.2 manual Table 3.2

/** What a site is told by; the rest follows from sound practice. SI, gauge. */
export type SiteOutline = {
  readonly setPressure: number;
  readonly ratedFlow: number;
  /** Pressure rise of the pump at its rated flow; 4/3 of it at no flow. */
  readonly ratedRise: number;
  readonly tankVolume: number;
  readonly precharge: number;
  readonly pipeLength: number;
  readonly bore: number;
};

/** A sensor beside the tank in calm water: 0.1 s lag, 0 to 10 bar, 12 bits. */
export const calmSensor: SensorModel = {
  fromTank: 0,
  lag: 0.1,
  noise: 150,
  step: 1e6 / 4096,
  range: { low: 0, high: 1e6 },
  turbulence: 0,
  scale: { gain: 1, offset: 0 },
  stuck: [],
};

export const plainLogger: LoggerModel = {
  interval: 1,
  jitter: 0,
  missing: 0,
  gaps: [],
  ownSensor: null,
  channels: ["pressure", "flow", "speed"],
  meter: { place: "after-tank", noise: 0.005, step: 1e-6, leastFlow: 5e-6, seesLeak: true },
  clock: { kind: "absolute", epoch: 1_772_409_600, zone: null },
  temperature: { mean: 288, swing: 4 },
};

/**
 * A variable-speed site that works as it should: tank of 20 % or more of the pump's per-minute capacity as told, sensor beside the tank,
 * a loop set by the calm rule at half the rated flow, sleep at a twentieth of it.
 * @throws RangeError where the pump cannot reach the set pressure
 */
export function soundSite(outline: SiteOutline): SiteModel {
  const curve = curveFromRatedPoint(cubicMetrePerSecond(outline.ratedFlow), pascalDifference(outline.ratedRise));
  if (!(curve.shutoff > outline.setPressure))
    throw new RangeError(`soundSite: shutoff ${curve.shutoff} Pa against ${outline.setPressure} Pa`);
  const pipe = { length: metre(outline.pipeLength), bore: metre(outline.bore), roughness: metre(STEEL) };
  const base = {
    suctionPressure: 0,
    atmosphere: ATMOSPHERE,
    pump: {
      shutoff: curve.shutoff,
      steepness: curve.steepness,
      ratedFlow: outline.ratedFlow,
      health: 1,
      withoutPrime: [],
      ratedCurrent: (outline.ratedFlow * outline.ratedRise) / 0.5 / (Math.sqrt(3) * 400 * 0.8),
      ratedPower: (outline.ratedFlow * outline.ratedRise) / 0.5,
    },
    backLeak: 0,
    manifoldCompliance: 5e-10,
    pipe: {
      length: outline.pipeLength,
      bore: outline.bore,
      resistance: 1.5 * quadraticResistance(pipe, cubicMetrePerSecond(outline.ratedFlow)),
    },
    tank: { volume: outline.tankVolume, precharge: outline.precharge, gasLeft: 1, stiffness: 5e-10, heatTime: 0 },
    systemLeak: 0,
    drawAt: "tank" as const,
    sensor: calmSensor,
    logger: plainLogger,
  };
  return { ...base, control: calmDrive({ ...base, control: NO_CONTROL }, outline.setPressure) };
}

const NO_CONTROL: SwitchModel = { kind: "fixed-speed", cutIn: 0, cutOut: 0, rampUp: 1, rampDown: 1 };

/** Speed at which the pump holds a pressure at a flow. */
export const speedFor = (site: SiteModel, pressure: number, flow: number): number =>
  Math.sqrt(
    (pressure - site.suctionPressure + (site.pump.steepness + site.pipe.resistance) * flow * flow) / (site.pump.shutoff * site.pump.health),
  );

/** How fast tank pressure rises per unit of speed at a flow, Pa/s: the k' of the loop. */
export function loopSlope(site: SiteModel, pressure: number, flow: number): number {
  const absolute = pressure + site.atmosphere;
  const constant = (site.tank.precharge + site.atmosphere) * site.tank.gasLeft * site.tank.volume;
  const compliance = site.tank.stiffness + (constant / site.tank.volume < absolute ? constant / absolute ** 2 : 0);
  return (speedFor(site, pressure, flow) * site.pump.shutoff * site.pump.health) / (site.pump.steepness * flow) / compliance;
}

/** A drive set as it should be for this site: calm rule at a quarter of the rated flow, with 0.9 s for filter, motor, sensor, sampling and ramp together. */
export function calmDrive(site: SiteModel, setPressure: number): DriveModel {
  const flow = 0.25 * site.pump.ratedFlow;
  const gain = 1 / (loopSlope(site, setPressure, flow) * 2 * 0.9);
  return {
    kind: "variable-speed",
    setPressure,
    gain,
    integralTime: 6,
    leastSpeed: 0.4,
    rampUp: 2.5,
    rampDown: 2.5,
    interval: 0.2,
    filter: 0.15,
    motorLag: 0.3,
    sleepSpeed: speedFor(site, setPressure, 0.05 * site.pump.ratedFlow),
    sleepDelay: 15,
    boost: 20e3,
    boostTime: 30,
    restartPressure: setPressure - 35e3,
    restartDelay: 0.5,
    dryRunStop: null,
  };
}

/** The same site with a pressure switch and a pump at full speed. */
export const withSwitch = (site: SiteModel, cutIn: number, cutOut: number): SiteModel => ({
  ...site,
  control: { kind: "fixed-speed", cutIn, cutOut, rampUp: 0.6, rampDown: 0.4 },
});

/** A pump turning backwards or badly worn: less head, and a steeper curve. */
export const weakened = (site: SiteModel, head: number): SiteModel => ({
  ...site,
  pump: { ...site.pump, health: head, steepness: site.pump.steepness / head },
});

/** Flow of the pump at full speed against the set pressure, m3/s. */
export const fullFlow = (site: SiteModel, pressure: number): number =>
  pumpFlow(
    { shutoff: pascalDifference(site.pump.shutoff * site.pump.health), steepness: site.pump.steepness + site.pipe.resistance },
    1,
    pressure - site.suctionPressure,
  );
