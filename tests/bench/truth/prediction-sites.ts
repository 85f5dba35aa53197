import { type SimulatedVisit, simulateSite } from "../../../analysis/model/simulate-site";
import type { LoggedChannel, SiteModel } from "../../../analysis/model/site-model";
import { type Random, seededRandom } from "../../../analysis/numerics/random";
import type { Change } from "../../../shared/findings/what-if";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { driveOf, GALLON, GPM } from "../../builders/model-sites";
import { randomDemand, randomSite } from "../../builders/random-sites";

export const SITE_KINDS = ["sound", "hot loop", "lost charge", "small tank"] as const;
export type SiteKind = (typeof SITE_KINDS)[number];

/** A simulated site, what was logged there, and the mends whose effect is predicted and then really simulated. */
export type PredictionCase = {
  readonly site: SiteModel;
  readonly visit: SimulatedVisit;
  readonly facts: Readonly<Record<string, unknown>>;
  readonly mends: readonly { readonly change: Change; readonly mended: SiteModel }[];
};

const HALF_DAY = 43200;
const between = (random: Random, low: number, high: number) => low * (high / low) ** random.next();

function withFault(site: SiteModel, kind: SiteKind, random: Random): SiteModel {
  const { tank } = site;
  switch (kind) {
    case "sound":
      return site;
    case "hot loop":
      return { ...site, control: { ...driveOf(site), gain: driveOf(site).gain * between(random, 4, 14) } };
    case "lost charge":
      return { ...site, tank: { ...tank, precharge: tank.precharge * (0.05 + 0.4 * random.next()) } };
    case "small tank":
      return { ...site, tank: { ...tank, volume: tank.volume * between(random, 0.1, 0.4) } };
  }
}

/** Every mend that people make at a drive's site: gain, charge, volume, sleep delay. */
function mendsOf(site: SiteModel, random: Random): PredictionCase["mends"] {
  const drive = driveOf(site);
  const gain = between(random, 0.3, 0.7);
  const charge = Math.max(0.3 * drive.setPressure, drive.setPressure - (15 + 5 * random.next()) * PSI);
  const volume = site.tank.volume * between(random, 1.5, 3);
  const delay = drive.sleepDelay * between(random, 1.5, 3);
  return [
    { change: { id: "gain", to: gain }, mended: { ...site, control: { ...drive, gain: drive.gain * gain } } },
    { change: { id: "precharge", to: charge }, mended: { ...site, tank: { ...site.tank, precharge: charge } } },
    { change: { id: "tank-volume", to: volume }, mended: { ...site, tank: { ...site.tank, volume } } },
    { change: { id: "sleep-delay", to: delay }, mended: { ...site, control: { ...drive, sleepDelay: delay } } },
  ];
}

/** @param seed one number, one case */
export function predictionCase(seed: number, kind: SiteKind, channels: readonly LoggedChannel[], interval: number): PredictionCase {
  const random = seededRandom(seed + 104_729);
  const drawn = withFault(randomSite(seed), kind, random);
  const site = { ...drawn, logger: { ...drawn.logger, channels, interval } };
  return {
    site,
    visit: simulateSite(site, randomDemand(site, HALF_DAY, seed), HALF_DAY, seed),
    facts: {
      setPressure: `${driveOf(site).setPressure / PSI} psi`,
      tankVolume: `${site.tank.volume / GALLON} gal`,
      pumpRatedFlow: `${site.pump.ratedFlow / GPM} gpm`,
      flowMeter: "after-tank",
      pump: "variable-speed",
    },
    mends: mendsOf(site, random),
  };
}

/** What is really drawn and happens after the mend: the same taps at the same times. */
export const afterMend = (mended: SiteModel, seed: number): SimulatedVisit =>
  simulateSite(mended, randomDemand(mended, HALF_DAY, seed), HALF_DAY, seed);
