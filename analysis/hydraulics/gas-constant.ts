import { type AbsolutePascal, absolutePascal } from "../../shared/units/pressure";
import { type CubicMetre, cubicMetre, type Joule, joule } from "../../shared/units/quantity";

/**
 * What the gas of a tank keeps at constant temperature: K = p0 * Vt, absolute precharge times total volume, J.
 * Volume and precharge cannot be told apart from K alone: a small tank with full charge and a large one with little share it.
 * @throws RangeError where one of the two is not above 0
 * Source: Boyle's law. 20 US gal charged to 45 psi gauge at sea level: 0.07571 m3 * 411 588 Pa = 31 161 J.
 */
export function gasConstant(totalVolume: CubicMetre, precharge: AbsolutePascal): Joule {
  if (!(totalVolume > 0 && precharge > 0))
    throw new RangeError(`gasConstant: volume ${totalVolume} m3, precharge ${precharge} Pa absolute`);
  return joule(totalVolume * precharge);
}

/** The precharge that a tank of known volume would need for this gas constant. @throws RangeError where one of the two is not above 0 */
export function prechargeFromGasConstant(constant: Joule, totalVolume: CubicMetre): AbsolutePascal {
  if (!(constant > 0 && totalVolume > 0)) throw new RangeError(`prechargeFromGasConstant: ${constant} J, ${totalVolume} m3`);
  return absolutePascal(constant / totalVolume);
}

/** The total volume that a tank of known precharge would need for this gas constant. @throws RangeError where one of the two is not above 0 */
export function volumeFromGasConstant(constant: Joule, precharge: AbsolutePascal): CubicMetre {
  if (!(constant > 0 && precharge > 0)) throw new RangeError(`volumeFromGasConstant: ${constant} J, ${precharge} Pa absolute`);
  return cubicMetre(constant / precharge);
}
