import { medianAbsoluteDeviation, NORMAL_PER_MAD } from "../numerics/order-statistics";

const MOST_SAMPLES = 40_000; // enough for a median; taken in whole pieces so that neighbours stay neighbours

/**
 * Standard deviation of what changes from sample to sample: second differences carry no level and no slope, and their spread is
 * sqrt(6) times that of white noise. The median makes steps and pump starts count for nothing.
 * @param values shape [n]  @returns same unit; 0 where most neighbours are equal (coarser steps than noise)
 */
export function noiseOf(values: ArrayLike<number>): number {
  const stride = Math.max(1, Math.floor(values.length / MOST_SAMPLES));
  const bends = new Float64Array(Math.max(0, Math.ceil((values.length - 2) / stride)));
  for (let i = 0; i < bends.length; i++) {
    const at = i * stride;
    bends[i] = values[at] - 2 * values[at + 1] + values[at + 2];
  }
  return (medianAbsoluteDeviation(bends, 0) * NORMAL_PER_MAD) / Math.sqrt(6);
}
