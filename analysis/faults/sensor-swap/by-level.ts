import type { Channel } from "../../../shared/record/log-record";
import { quantiles } from "../../numerics/order-statistics";
import { type Beside, type Change, LEAST_SAMPLES, LEAST_SHARE } from "./change";

/** Samples on either side of a step that tell its height. */
const SIDE = 5;
/** A step stands out over what the water does from sample to sample: of the other steps but for a few none is nearly as high. */
const OTHERS = 3;
const NEARLY = 0.6;
/** Lasting shift of the readings, low to high, over the step itself: 1 for another zero, changing with the level for another span. */
const LASTING = [0.3, 2.2] as const;
const LEVELS = [0.05, 0.25, 0.5, 0.75, 0.95];
/** The water must move in both parts: this many noise spreads, and alike within a ratio. */
const OVER_NOISE = 4;
const AS_ACTIVE = 3;
/** Water takes its time or swings after a blow: the samples on either side of the step hold still within these shares of it and noise spreads. */
const STILL = { share: 0.15, noises: 5 };
/** All of the height lies between the two samples, but for these: a sensor's own lag leaves more of a step of the water to the next. */
const LEFT = { share: 0.1, noises: 5 };
/** Pressure follows its pump within seconds: only a step between samples this near is none of the water's, s. */
export const FASTEST_WATER = 2;

/**
 * Whether all readings, low and high, shift at once and for good by what one step between two samples showed, while water and pump go on: another zero or
 * span. Setting another pressure takes a pump seconds, and a pump that starts moves the pressure more than once.
 */
export function changeOfLevel(values: Channel["values"], noise: number, beside: Beside): Change | null {
  const step = highestStep(values);
  const { length } = values;
  const least = Math.max(LEAST_SAMPLES, LEAST_SHARE * length);
  if (step === null || step.at < least || length - step.at < least || !(Math.abs(step.height) > 2 * OVER_NOISE * noise)) return null;
  if (!isDoneAtOnce(values, step, noise) || beside.some((channel) => stepsToo(channel, step.at))) return null;
  const before = quantiles(values.subarray(0, step.at), LEVELS);
  const after = quantiles(values.subarray(step.at), LEVELS);
  const lasts = LEVELS.every((_, k) => {
    const share = (after[k] - before[k]) / step.height;
    return share > LASTING[0] && share < LASTING[1];
  });
  const [a, b] = [before, after].map((levels) => levels[LEVELS.length - 1] - levels[0]);
  const active = Math.min(a, b) > OVER_NOISE * noise && a < AS_ACTIVE * b && b < AS_ACTIVE * a;
  return lasts && active ? { at: step.at, sign: "level" } : null;
}

type Step = { readonly at: number; readonly height: number };

function isDoneAtOnce(values: Channel["values"], { at, height }: Step, noise: number): boolean {
  const most = Math.max(STILL.share * Math.abs(height), STILL.noises * noise);
  const left = Math.abs(height - (values[at] - values[at - 1]));
  if (left > Math.max(LEFT.share * Math.abs(height), LEFT.noises * noise)) return false;
  return Math.abs(values[at - 1] - values[at - 2]) < most && Math.abs(values[at + 1] - values[at]) < most;
}

/** The highest step between neighbours, measured by the medians on either side; null where others are nearly as high, or it does not last. */
function highestStep(values: Channel["values"]): Step | null {
  const highest = new Float64Array(OTHERS + 2);
  let at = -1;
  for (let i = 1; i < values.length; i++) {
    const size = Math.abs(values[i] - values[i - 1]);
    if (!(size > highest[0])) continue;
    if (size > highest[highest.length - 1]) at = i;
    highest[0] = size;
    highest.sort();
  }
  if (at < SIDE || at + SIDE > values.length) return null;
  const [before] = quantiles(values.subarray(at - SIDE, at), [0.5]);
  const [after] = quantiles(values.subarray(at, at + SIDE), [0.5]);
  const height = after - before;
  const single = highest[0] < NEARLY * Math.abs(height) && highest[highest.length - 2] < Math.abs(height);
  return single ? { at, height } : null;
}

/** Whether a channel takes one of its own larger steps at the same time. */
function stepsToo({ values }: Channel, at: number): boolean {
  const stride = Math.max(1, Math.floor(values.length / 5000));
  const steps: number[] = [];
  for (let i = 2; i < values.length; i += stride) steps.push(Math.abs(values[i] - values[i - 2]));
  const [usual] = quantiles(
    steps.filter((size) => size - size === 0),
    [0.995],
  );
  return [at, at + 1].some((i) => i < values.length && Math.abs(values[i] - values[i - 2]) > usual);
}
