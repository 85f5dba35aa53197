/**
 * What a 4-20 mA signal stands for: value = low + (i - 4 mA)/16 mA (high - low).
 * @param current A  @param low value at 4 mA  @param high value at 20 mA
 * Source: definition. 12 mA on 0 to 200 psi: 100 psi.
 */
export const fromLiveZero = (current: number, low: number, high: number): number => low + ((current - 0.004) / 0.016) * (high - low);

/** The way back, A. @throws RangeError where low and high are the same */
export function toLiveZero(value: number, low: number, high: number): number {
  if (low === high) throw new RangeError(`toLiveZero: range from ${low} to ${high}`);
  return 0.004 + ((value - low) / (high - low)) * 0.016;
}

/**
 * What a current says beside the value: measuring from 3.8 to 20.5 mA, failure at or below 3.6 or at or above 21 mA, neither between.
 * Source: NAMUR NE 43 (secondary pages agree on 3.6 and 21, not on how to call what lies between).
 */
export function liveZeroState(current: number): "measuring" | "failed-low" | "failed-high" | "unclear" {
  if (current <= 0.0036) return "failed-low";
  if (current >= 0.021) return "failed-high";
  return current >= 0.0038 && current <= 0.0205 ? "measuring" : "unclear";
}
