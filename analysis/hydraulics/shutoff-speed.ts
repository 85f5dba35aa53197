import type { PascalDifference } from "../../shared/units/pressure";

/**
 * The speed ratio below which a pump no longer reaches a pressure even at no flow: s = sqrt(p / p_shutoff).
 * Below it the check valve is shut and the tank alone carries the draw. No suction pressure counted: take it off `rise` first.
 * @param rise pressure to hold, Pa  @param shutoff the pump's own at full speed and no flow, Pa
 * @returns above 1 where the pump never reaches it  @throws RangeError where one is not above 0
 * Source: affinity law at Q = 0. 60 psi against a shutoff of 200 ft: 0.832.
 */
export function shutoffSpeed(rise: PascalDifference, shutoff: PascalDifference): number {
  if (!(rise > 0 && shutoff > 0)) throw new RangeError(`shutoffSpeed: rise ${rise}, shutoff ${shutoff} Pa`);
  return Math.sqrt(rise / shutoff);
}
