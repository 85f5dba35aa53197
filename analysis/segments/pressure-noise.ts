import { distinctValues } from "../numerics/distinct-values";
import { median, medianAbsoluteDeviation, NORMAL_PER_MAD } from "../numerics/order-statistics";
import { remembered } from "../numerics/remember";

const MOST_SAMPLES = 40_000; // enough for a median; taken in whole pieces so that neighbours stay neighbours

/**
 * Standard deviation of what changes from sample to sample: second differences carry no level and no slope, and their spread is
 * sqrt(6) times that of white noise. The median makes steps and pump starts count for nothing.
 * @param values shape [n]  @returns same unit; 0 where most neighbours are equal (coarser steps than noise)
 */
export const noiseOf = remembered(spreadFromSampleToSample);

function spreadFromSampleToSample(values: ArrayLike<number>): number {
  const stride = Math.max(1, Math.floor(values.length / MOST_SAMPLES));
  const bends = new Float64Array(Math.max(0, Math.ceil((values.length - 2) / stride)));
  for (let i = 0; i < bends.length; i++) {
    const at = i * stride;
    bends[i] = values[at] - 2 * values[at + 1] + values[at + 2];
  }
  return (medianAbsoluteDeviation(bends, 0) * NORMAL_PER_MAD) / Math.sqrt(6);
}

const MOST_LEVELS = 2000;
const LEAST_LEVELS = 5; // two or three values are states of the water, not steps of the channel

/** Step between neighbouring levels of a coarse channel: the usual least difference of the values it takes. 0 where it takes too many to have one. */
export const levelStep = remembered(stepOfLevels);

function stepOfLevels(values: ArrayLike<number>): number {
  const levels = distinctValues(values, MOST_LEVELS);
  if (levels === null || levels.length < LEAST_LEVELS || levels.length > values.length / 4) return 0;
  return median(levels.subarray(1).map((level, i) => level - levels[i]));
}
