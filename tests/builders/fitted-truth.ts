import { type SiteModel, tankGasConstant } from "../../analysis/model/site-model";
import type { ParameterId } from "../../shared/findings/what-if";
import { driveOf } from "./model-sites";

/** What the record was made with. The pipes stretch beside the gas; at the set pressure that adds their softness times p^2 to K. */
export function truthOf(site: SiteModel): Partial<Record<ParameterId, number>> {
  const drive = driveOf(site);
  const pipes = (site.tank.stiffness + site.manifoldCompliance) * (drive.setPressure + site.atmosphere) ** 2;
  return {
    "gas-constant": tankGasConstant(site) + pipes,
    shutoff: site.pump.shutoff,
    steepness: site.pump.steepness + site.pipe.resistance,
    "restart-pressure": drive.restartPressure,
    "stop-pressure": drive.setPressure + drive.boost,
    gain: drive.gain,
    "integral-time": drive.integralTime,
    "loop-lag": drive.filter + drive.motorLag + drive.interval / 2,
    "ramp-time": drive.rampUp,
    "sleep-delay": drive.sleepDelay,
  };
}
