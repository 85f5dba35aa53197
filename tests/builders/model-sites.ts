import type { DriveModel, SiteModel } from "../../analysis/model/site-model";
import { calmSensor, soundSite } from "../../analysis/model/sound-site";
import { PASCAL_PER_PSI as PSI } from "../../shared/units/pressure";

export const GALLON = 3.785411784e-3;
export const GPM = GALLON / 60;

/** An invented, sound site: 58 psi, 40 gpm pump, 20 gal tank charged to 40 psi, sensor beside the tank. */
export const exampleSite = (): SiteModel =>
  soundSite({
    setPressure: 58 * PSI,
    ratedFlow: 40 * GPM,
    ratedRise: 62 * PSI,
    tankVolume: 20 * GALLON,
    precharge: 40 * PSI,
    pipeLength: 2,
    bore: 0.041,
  });

export const driveOf = (site: SiteModel): DriveModel => {
  if (site.control.kind !== "variable-speed") throw new Error("not a variable-speed site");
  return site.control;
};
export const withDrive = (site: SiteModel, change: Partial<DriveModel>): SiteModel => ({
  ...site,
  control: { ...driveOf(site), ...change },
});
export const withGain = (site: SiteModel, times: number): SiteModel => withDrive(site, { gain: driveOf(site).gain * times });
export const withCharge = (site: SiteModel, psi: number): SiteModel => ({ ...site, tank: { ...site.tank, precharge: psi * PSI } });
/** Tank moved away from pump and sensor; the pipe's resistance grows with it. */
export const withTankAway = (site: SiteModel, metres: number): SiteModel => ({
  ...site,
  pipe: { ...site.pipe, length: metres, resistance: (site.pipe.resistance * metres) / site.pipe.length },
  sensor: { ...calmSensor, fromTank: metres },
});
