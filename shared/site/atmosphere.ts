/**
 * Air pressure at an altitude, Pa absolute: P = 101325 (1 - 0.0065 h / 288.15)^5.25588, troposphere, 0 to 11 000 m.
 * @throws RangeError outside -500 to 11 000 m     Source: ISA 1976; 500 m gives 95 461 Pa, 2000 m 79 495 Pa.
 */
export function atmosphereAt(altitude: number): number {
  if (!(altitude >= -500 && altitude <= 11000)) throw new RangeError(`atmosphereAt: altitude ${altitude} m`);
  return 101325 * (1 - (0.0065 * altitude) / 288.15) ** 5.25588;
}
