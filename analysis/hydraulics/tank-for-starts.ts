import type { AbsolutePascal } from "../../shared/units/pressure";
import { type CubicMetre, type CubicMetrePerSecond, cubicMetre, seconds } from "../../shared/units/quantity";
import { drawdownForCycle } from "./cycle-time";

/**
 * Total volume of a diaphragm tank that keeps a fixed-speed pump to a number of starts per hour at the worst demand:
 * Vt = (Qp T / 4) / (p0 (1/p_on - 1/p_off)), T = 3600 s / starts.
 * With the precharge at cut-in it is WA DOH 331-123 (2009) eq. 11-1 with a shape factor of 1.
 * @param pumpFlow Qp, m3/s  @param startsPerHour above 0
 * @param cutOut p_off  @param cutIn p_on  @param precharge p0, at most cut-in; all Pa absolute
 * @throws RangeError where these do not hold
 * Worked: 100 gpm, 6 starts/h, 60/40 psi, precharge 40 psi gauge with 14.7 psi air: 933.75 US gal; precharge 35 psi: 1027.7 US gal.
 */
export function tankForStarts(
  pumpFlow: CubicMetrePerSecond,
  startsPerHour: number,
  cutOut: AbsolutePascal,
  cutIn: AbsolutePascal,
  precharge: AbsolutePascal,
): CubicMetre {
  if (!(startsPerHour > 0 && cutOut > cutIn && precharge > 0 && precharge <= cutIn))
    throw new RangeError(`tankForStarts: ${startsPerHour}/h, cut-out ${cutOut}, cut-in ${cutIn}, precharge ${precharge} Pa absolute`);
  return cubicMetre(drawdownForCycle(pumpFlow, seconds(3600 / startsPerHour)) / (precharge * (1 / cutIn - 1 / cutOut)));
}
