import type { AbsolutePascal } from "../../shared/units/pressure";
import { type CubicMetre, cubicMetre } from "../../shared/units/quantity";

/**
 * Water a diaphragm tank gives between two pressures: V = p0 * Vt * (1/p1 - 1/p2), p1 not below p0 (there the tank is empty).
 * Gas at constant temperature; a fast draw cools it and yields less.
 * @param totalVolume Vt, m3  @param precharge p0, Pa absolute
 * @param high p2 at the start of the draw, Pa absolute  @param low p1 at its end, Pa absolute
 * @returns m3; 0 where the tank holds no water at `high`  @throws RangeError where a pressure is not above 0 or low is above high
 * Source: Boyle's law; WA DOH 331-123 eq. 11-1. 119 US gal, 30/50 psi, precharge 30 psi gauge: 36.79 US gal.
 */
export function drawdown(totalVolume: CubicMetre, precharge: AbsolutePascal, high: AbsolutePascal, low: AbsolutePascal): CubicMetre {
  if (!(totalVolume > 0 && precharge > 0 && low > 0 && low <= high))
    throw new RangeError(`drawdown: volume ${totalVolume} m3, precharge ${precharge}, low ${low}, high ${high} Pa absolute`);
  const emptiesAt = Math.max(precharge, low);
  return cubicMetre(high <= emptiesAt ? 0 : precharge * totalVolume * (1 / emptiesAt - 1 / high));
}
