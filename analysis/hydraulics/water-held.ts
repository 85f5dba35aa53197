import type { AbsolutePascal } from "../../shared/units/pressure";
import { type CubicMetre, cubicMetre } from "../../shared/units/quantity";

/**
 * Water in a diaphragm tank: Vw = Vt (1 - p0/p), 0 at or below the precharge.
 * Gas at constant temperature, no water trapped behind the diaphragm; makers cap the usable share, and their limit comes first.
 * @param totalVolume Vt, m3  @param precharge p0, Pa absolute  @param pressure p, Pa absolute
 * @throws RangeError where one of the three is not above 0
 * Source: Boyle's law. 20 US gal charged to 45 psi holds 4.016 US gal at 60 psi (gauge, sea level).
 */
export function waterHeld(totalVolume: CubicMetre, precharge: AbsolutePascal, pressure: AbsolutePascal): CubicMetre {
  if (!(totalVolume > 0 && precharge > 0 && pressure > 0))
    throw new RangeError(`waterHeld: volume ${totalVolume} m3, precharge ${precharge}, pressure ${pressure} Pa absolute`);
  return cubicMetre(pressure <= precharge ? 0 : totalVolume * (1 - precharge / pressure));
}
