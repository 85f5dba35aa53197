import type { GaugePascal } from "../../shared/units/pressure";
import { type CubicMetrePerSecond, cubicMetrePerSecond } from "../../shared/units/quantity";

/**
 * Water out of a hole or an open fitting: Q = Cd A sqrt(2 p / rho).
 * @param effectiveArea Cd A, m2  @param pressure gauge, Pa; nothing flows where it is not above 0
 * @throws RangeError where the area is below 0
 * Source: Torricelli; Cd 0.75 for a round leak (WNTR manual). 10 mm hole, Cd 0.75, 30 m of water: 1.429 L/s.
 */
export function orificeFlow(effectiveArea: number, pressure: GaugePascal, density = 998.2): CubicMetrePerSecond {
  if (!(effectiveArea >= 0)) throw new RangeError(`orificeFlow: area ${effectiveArea} m2`);
  return cubicMetrePerSecond(pressure > 0 ? effectiveArea * Math.sqrt((2 * pressure) / density) : 0);
}

/**
 * How a leak changes with pressure: Q1/Q0 = (p1/p0)^N.
 * N is 0.5 for a round hole; corrosion holes 0.67 to 2.30, longitudinal cracks 0.79 to 1.85 have been measured (AQUA 56(2) 2007).
 * @throws RangeError where a pressure is not above 0
 * Worked: 30 to 27 m with N = 1.5: 0.854.
 */
export function leakRatio(before: GaugePascal, after: GaugePascal, exponent: number): number {
  if (!(before > 0 && after > 0)) throw new RangeError(`leakRatio: ${before} and ${after} Pa gauge`);
  return (after / before) ** exponent;
}
