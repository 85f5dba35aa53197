import { type PascalDifference, pascalDifference } from "../../shared/units/pressure";
import type { CubicMetrePerSecond, Metre } from "../../shared/units/quantity";
import { frictionFactor } from "./friction-factor";

/** A pipe with the water in it. */
export type Pipe = {
  readonly length: Metre;
  /** Inside diameter. */
  readonly bore: Metre;
  /** Height of the wall's grains: steel 4.6e-5 m, plastic 1.5e-6 m (EPANET 2.2 manual Table 3.2). */
  readonly roughness: Metre;
};

const WATER_DENSITY = 998.2; // kg/m3 at 20 C, Kell 1975 (998.206)
const WATER_VISCOSITY = 1.0034e-6; // m2/s at 20 C, IAPWS 2008

/**
 * Pressure lost to friction along a pipe: dp = f (L/D) rho v^2/2, with the sign of the flow.
 * Steady flow of water at 20 C; good to some 10 %, as all such figures (Moody 1944).
 * @param flow m3/s, either way  @param viscosity kinematic, m2/s  @throws RangeError where length is below 0 or bore not above 0
 * Source: Darcy-Weisbach, EPANET 2.2 manual ch. 12. 100 ft of 1.610 in steel at 30 gpm, 60 F: 6.27 ft of water.
 */
export function headLoss(pipe: Pipe, flow: CubicMetrePerSecond, viscosity = WATER_VISCOSITY, density = WATER_DENSITY): PascalDifference {
  if (!(pipe.length >= 0 && pipe.bore > 0)) throw new RangeError(`headLoss: length ${pipe.length} m, bore ${pipe.bore} m`);
  const speed = Math.abs(flow) / ((Math.PI / 4) * pipe.bore ** 2);
  if (speed === 0) return pascalDifference(0);
  const factor = frictionFactor((speed * pipe.bore) / viscosity, pipe.roughness / pipe.bore);
  return pascalDifference(Math.sign(flow) * factor * (pipe.length / pipe.bore) * (density / 2) * speed ** 2);
}

/**
 * Resistance R of a pipe so that dp = R Q |Q|, taken at one flow: Pa per (m3/s)^2. Around that flow it moves by a few percent.
 * @throws RangeError where the flow is not above 0
 */
export function quadraticResistance(pipe: Pipe, flow: CubicMetrePerSecond): number {
  if (!(flow > 0)) throw new RangeError(`quadraticResistance: flow ${flow} m3/s`);
  return headLoss(pipe, flow) / flow ** 2;
}
