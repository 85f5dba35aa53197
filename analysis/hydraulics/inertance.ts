import type { Metre } from "../../shared/units/quantity";

/**
 * How hard it is to speed up the water in a pipe: rho L / A, Pa per (m3/s2). Water taken as rigid, the pipe as full.
 * @param length L, m, not below 0  @param bore inside diameter, m, above 0  @param density rho, kg/m3
 * @throws RangeError otherwise
 * Source: Newton's second law. 30 m of 52.5 mm bore at 998.2 kg/m3: 1.3833e7 Pa s2/m3.
 */
export function inertance(length: Metre, bore: Metre, density = 998.2): number {
  if (!(length >= 0 && bore > 0 && density > 0))
    throw new RangeError(`inertance: length ${length} m, bore ${bore} m, density ${density} kg/m3`);
  return (density * length) / ((Math.PI / 4) * bore * bore);
}
