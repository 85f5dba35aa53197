import type { AbsolutePascal } from "../../shared/units/pressure";
import type { Joule } from "../../shared/units/quantity";

/**
 * Softness of a tank, how much water it takes per rise of pressure: C = K / (n p^2), m3/Pa, with K = p0 Vt.
 * Only where p is above the precharge: below it the diaphragm is seated and next to nothing is left.
 * @param constant K, J  @param pressure p, Pa absolute
 * @param exponent n: 1 for slow changes, 1.2 usual for surge, 1.4 for fast ones in air
 * @throws RangeError where K or p is not above 0 or n lies outside 1 to 1.67
 * Source: Boyle's law differentiated. 20 US gal, 45 psi precharge, at 60 psi gauge: 0.2140 US gal/psi = 1.1748e-7 m3/Pa.
 */
export function tankCompliance(constant: Joule, pressure: AbsolutePascal, exponent = 1): number {
  if (!(constant > 0 && pressure > 0 && exponent >= 1 && exponent <= 1.67))
    throw new RangeError(`tankCompliance: K ${constant} J, pressure ${pressure} Pa absolute, exponent ${exponent}`);
  return constant / (exponent * pressure * pressure);
}
