import { finiteValues, medianAbsoluteDeviation, NORMAL_PER_MAD, quantiles } from "../numerics/order-statistics";

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

const MOST_SAMPLES = 50_000;
const LONG_REPEAT = 20;

/** Habit of a channel from pieces spread over its record. Null with too few values. @param values shape [n], NaN where missing */
export function habitOf(values: ArrayLike<number>): ChannelHabit | null {
  const stride = Math.max(1, Math.floor(values.length / MOST_SAMPLES));
  const some = finiteValues(
    stride === 1 ? values : Float64Array.from({ length: Math.floor(values.length / stride) }, (_, i) => values[i * stride]),
  );
  if (some.length < 30) return null;
  const [low, high] = quantiles(some, [0.005, 0.995]);
  const bends = Float64Array.from({ length: Math.floor((values.length - 2) / stride) }, (_, k) => {
    const i = k * stride;
    return values[i] - 2 * values[i + 1] + values[i + 2];
  });
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
const FEW_REPEATS = 0.3;

/** Whether two readings of this channel hardly ever agree by chance: only then does a long repeat say something about the sensor. */
export const hardlyRepeats = ({ low, high, noise, repeats }: ChannelHabit) => repeats < FEW_REPEATS && noise > VISIBLE_NOISE * (high - low);
