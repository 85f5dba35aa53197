import { type AbsolutePascal, absolutePascal } from "../../shared/units/pressure";
import type { Kelvin } from "../../shared/units/quantity";

/**
 * The charge of an empty tank after its air has warmed or cooled at constant volume: p2 = p1 T2/T1.
 * @param precharge p1, Pa absolute  @param from T1, K  @param to T2, K  @throws RangeError where one is not above 0
 * Source: ideal gas. 40 psi gauge at 20 C reads 37.2 psi at 5 C (sea level).
 */
export function prechargeAtTemperature(precharge: AbsolutePascal, from: Kelvin, to: Kelvin): AbsolutePascal {
  if (!(precharge > 0 && from > 0 && to > 0)) throw new RangeError(`prechargeAtTemperature: ${precharge} Pa absolute, ${from} K, ${to} K`);
  return absolutePascal((precharge * to) / from);
}
