import type { AbsolutePascal } from "../../shared/units/pressure";
import { type CubicMetrePerSecond, cubicMetrePerSecond, type Joule, type Seconds } from "../../shared/units/quantity";

/**
 * Mean leak that lets a tank's pressure fall with the pump off and nothing drawn: q = K (1/p2 - 1/p1) / t.
 * Cooling air lowers pressure too, about 1 % of absolute per 3 K. Holds only while p2 is above the precharge.
 * @param constant K = p0 Vt, J  @param before p1  @param after p2, Pa absolute  @param elapsed t, s
 * @returns m3/s, below 0 where pressure rose  @throws RangeError where one of the four is not above 0
 * Source: Boyle's law and continuity. 20 US gal charged to 45 psi, 60 to 55 psi gauge in 10 min: 0.1147 gpm.
 */
export function leakFromDecay(constant: Joule, before: AbsolutePascal, after: AbsolutePascal, elapsed: Seconds): CubicMetrePerSecond {
  if (!(constant > 0 && before > 0 && after > 0 && elapsed > 0))
    throw new RangeError(`leakFromDecay: K ${constant} J, before ${before}, after ${after} Pa absolute, ${elapsed} s`);
  return cubicMetrePerSecond((constant * (1 / after - 1 / before)) / elapsed);
}
