import { type AbsolutePascal, absolutePascal } from "../units/pressure";
import type { Metre } from "../units/quantity";

/**
 * Air pressure at an altitude in the standard atmosphere: p = 101325 (1 - 0.0065 h / 288.15)^5.25588.
 * Weather moves it by some 2 %; altitude by 11 % per 1000 m.
 * @param altitude geopotential height, m, -1000 to 11 000  @throws RangeError outside
 * Source: ISA troposphere (from memory; reproduces the 1976 atmosphere table). 1500 m: 84 556 Pa.
 */
export function atmosphereAt(altitude: Metre): AbsolutePascal {
  if (!(altitude >= -1000 && altitude <= 11000)) throw new RangeError(`atmosphereAt: altitude ${altitude} m`);
  return absolutePascal(101325 * (1 - (0.0065 * altitude) / 288.15) ** 5.25588);
}
