import { medianAbsoluteDeviation, NORMAL_PER_MAD, quantiles } from "../numerics/order-statistics";
import { remembered } from "../numerics/remember";
import { ENOUGH_FOR_QUANTILES, someValues } from "../numerics/some-values";

/** How a channel usually behaves from sample to sample. */
export type ChannelHabit = {
  /** Range that all but one in two hundred values keep to, either end. */
  readonly low: number;
  readonly high: number;
  /** Spread of what changes from sample to sample. */
  readonly noise: number;
  /** Share of samples equal to the one before, long repeats left out. */
  readonly repeats: number;
};

const LONG_REPEAT = 20; // samples; longer is a state of the water or the sensor, no habit

/** Habit of a channel from values all over its record. Null with too few. @param values shape [n], NaN where missing */
export const habitOf = remembered(usualOf);

function usualOf(values: ArrayLike<number>): ChannelHabit | null {
  const some = someValues(values);
  if (some.length < 30) return null;
  const [low, high] = quantiles(some, [0.005, 0.995]);
  const stride = Math.max(1, Math.floor(values.length / ENOUGH_FOR_QUANTILES));
  const bends = new Float64Array(Math.floor((values.length - 2) / stride));
  for (let k = 0; k < bends.length; k++) bends[k] = values[k * stride] - 2 * values[k * stride + 1] + values[k * stride + 2];
  return { low, high, noise: (medianAbsoluteDeviation(bends, 0) * NORMAL_PER_MAD) / Math.sqrt(6), repeats: repeatsOf(values) };
}

function repeatsOf(values: ArrayLike<number>): number {
  let equal = 0;
  let pairs = 0;
  for (let i = 1, length = 1; i <= values.length; i++) {
    if (i < values.length && values[i] === values[i - 1]) {
      length++;
      continue;
    }
    if (length < LONG_REPEAT) {
      equal += length - 1;
      pairs += length;
    }
    length = 1;
  }
  return pairs === 0 ? 1 : equal / pairs;
}

const VISIBLE_NOISE = 2e-4; // of the range; curves of water alone bend less than this from sample to sample
const FEW_REPEATS = 0.3; // of the samples

/** Whether two readings of this channel hardly ever agree by chance: only then does a long repeat say something about the sensor. */
export const hardlyRepeats = ({ low, high, noise, repeats }: ChannelHabit) => repeats < FEW_REPEATS && noise > VISIBLE_NOISE * (high - low);
