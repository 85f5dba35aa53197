/**
 * Darcy friction factor. Laminar 64/Re below Re 2000; Colebrook above 4000; between, a straight line from one to the other, for there
 * nature does not settle.
 * @param reynolds above 0  @param relativeRoughness roughness over bore, 0 to 0.05  @throws RangeError otherwise
 * Source: EPANET 2.2 manual ch. 12. Re 1e5, relative roughness 1e-4: 0.018514.
 */
export function frictionFactor(reynolds: number, relativeRoughness: number): number {
  if (!(reynolds > 0 && relativeRoughness >= 0 && relativeRoughness <= 0.05))
    throw new RangeError(`frictionFactor: Reynolds ${reynolds}, relative roughness ${relativeRoughness}`);
  if (reynolds <= 2000) return 64 / reynolds;
  if (reynolds >= 4000) return colebrook(reynolds, relativeRoughness);
  const share = (reynolds - 2000) / 2000;
  return (1 - share) * (64 / 2000) + share * colebrook(4000, relativeRoughness);
}

/** Swamee-Jain: 0.25 / log10(e/3.7 + 5.74/Re^0.9)^2; 5e3 < Re < 1e8, 1e-6 < e < 1e-2, up to 1 % from Colebrook. Re 1e5, 1e-4: 0.018452. */
export const swameeJain = (reynolds: number, relativeRoughness: number) =>
  0.25 / Math.log10(relativeRoughness / 3.7 + 5.74 / reynolds ** 0.9) ** 2;

/** Haaland: 1/sqrt f = -1.8 log10((e/3.7)^1.11 + 6.9/Re). Re 1e5, 1e-4: 0.018265. */
export const haaland = (reynolds: number, relativeRoughness: number) =>
  (-1.8 * Math.log10((relativeRoughness / 3.7) ** 1.11 + 6.9 / reynolds)) ** -2;

/** Colebrook solved by its own fixed point from Swamee-Jain, which gains about a digit a turn. Re 1e5, 1e-4: 0.018514. */
export function colebrook(reynolds: number, relativeRoughness: number): number {
  let inverseRoot = 1 / Math.sqrt(swameeJain(reynolds, relativeRoughness));
  for (let turn = 0; turn < 20; turn++) inverseRoot = -2 * Math.log10(relativeRoughness / 3.7 + (2.51 * inverseRoot) / reynolds);
  return inverseRoot ** -2;
}
