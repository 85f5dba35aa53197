/**
 * Density of liquid water near atmospheric pressure, kg/m3.
 * @param celsius 0 to 100 degrees C  @throws RangeError outside
 * Source: Kell 1975 (from memory); within 0.02 kg/m3 of IAPWS-IF97 up to 60 C. 20 C: 998.206.
 */
export function waterDensity(celsius: number): number {
  inRange(celsius);
  const t = celsius;
  const above = 999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return above / (1 + 16.87985e-3 * t);
}

/**
 * Vapour pressure of water, Pa absolute.
 * @param celsius 0 to 100 degrees C  @throws RangeError outside
 * Source: Buck (from memory); within 0.04 % of IAPWS-IF97 up to 60 C. 20 C: 2339 Pa.
 */
export function vapourPressure(celsius: number): number {
  inRange(celsius);
  return 611.21 * Math.exp(((18.678 - celsius / 234.5) * celsius) / (257.14 + celsius));
}

/**
 * Dynamic viscosity of water, Pa s.
 * @param celsius 0 to 100 degrees C  @throws RangeError outside
 * Source: Vogel form (from memory); within 0.7 % of the IAPWS 2008 release from 10 to 60 C, 2 % low at 0 C. 20 C: 1.002e-3.
 */
export function waterViscosity(celsius: number): number {
  inRange(celsius);
  return 2.414e-5 * 10 ** (247.8 / (celsius + 273.15 - 140));
}

function inRange(celsius: number): void {
  if (!(celsius >= 0 && celsius <= 100)) throw new RangeError(`water properties hold from 0 to 100 C, not at ${celsius} C`);
}
