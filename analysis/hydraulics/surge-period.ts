import { type Seconds, seconds } from "../../shared/units/quantity";

/**
 * Period of a water column swinging against a tank: T = 2 pi sqrt(I C), small swings, no friction, water taken as rigid.
 * @param inertance I of the pipe between, Pa s2/m3  @param compliance C of the tank, m3/Pa  @throws RangeError where one is below 0
 * Source: mass on a spring; Wylie & Streeter, Thorley (from memory). 30 m of 52.5 mm bore against 20 US gal charged to 45 psi at 60 psi
 * gauge: 8.01 s isothermal, 7.31 s with n = 1.2.
 */
export function surgePeriod(inertance: number, compliance: number): Seconds {
  if (!(inertance >= 0 && compliance >= 0)) throw new RangeError(`surgePeriod: inertance ${inertance}, compliance ${compliance}`);
  return seconds(2 * Math.PI * Math.sqrt(inertance * compliance));
}
