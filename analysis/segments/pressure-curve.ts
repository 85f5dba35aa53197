import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, OnChange, Sampling } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import { type Stretch, stretchesOf, valuesWithoutSpikes } from "../faults/observed";
import { scanInterval } from "../faults/scan-interval";
import { median, quantile } from "../numerics/order-statistics";
import { rememberedForTwo } from "../numerics/remember";
import { levelStep, noiseOf } from "./pressure-noise";

/** A pressure as a curve over time: Pa gauge, shape [n]. `noise` is what a reading may be out by, Pa: its tremble, and what its steps or its dead band hide. */
export type PressureCurve = {
  readonly values: ArrayLike<number>;
  readonly sampling: Sampling;
  readonly stretches: readonly Stretch[];
  readonly noise: number;
};

/**
 * The curve of a pressure channel without its spikes. One logged on change has a sample where it moved, not where it stood: its curve is read at even instants, as its logger
 * looked at it. Between two rows it kept within a dead band: where they are about that far apart it went from one to the other, by way of the corner where it
 * turned in between; where they are further apart it stood still until it leapt.
 */
export const pressureCurve = rememberedForTwo((channel: Channel, faults: readonly LogFault[]): PressureCurve => {
  const values = valuesWithoutSpikes(channel, faults);
  const { sampling } = channel;
  if (sampling.kind === "on-change" && values.length > 1) {
    const even = evenly(channel, sampling);
    const spread = Math.hypot(noiseOf(even.channel.values), even.deadBand / Math.sqrt(12));
    return { values: even.channel.values, sampling: even.channel.sampling, stretches: stretchesOf(even.channel, faults), noise: spread };
  }
  return {
    values,
    sampling,
    stretches: stretchesOf(channel, faults),
    noise: Math.hypot(noiseOf(values), levelStep(values) / Math.sqrt(12)),
  };
});

const MOST_POINTS = 1_000_000;
const WITHIN = 2; // dead bands

function evenly(channel: Channel, sampling: OnChange): { channel: Channel; deadBand: number } {
  const { values } = channel;
  const { times, until } = sampling;
  const start = times[0];
  const steps = Float64Array.from({ length: times.length - 1 }, (_, i) => times[i + 1] - times[i]);
  const step = Math.max(scanInterval(sampling) ?? quantile(steps, 0.1), (until - start) / MOST_POINTS);
  const moves = Float64Array.from(steps, (_, i) => Math.abs(values[i + 1] - values[i])).filter((move) => move > 0);
  const deadBand = moves.length === 0 ? 0 : median(moves);
  const count = Math.floor((until - start) / step + 1e-6) + 1;
  const curve = new Float64Array(count);
  let [at, corner]: [number, Point | null] = [-1, null];
  for (let k = 0, i = 0; k < count; k++) {
    const t = start + k * step;
    while (i + 1 < times.length && times[i + 1] <= t + 1e-6 * step) i++;
    if (i !== at) {
      at = i;
      corner = cornerAfter(i, times, values, deadBand);
    }
    curve[k] = corner === null ? values[i] : onWay(times[i], values[i], corner, times[i + 1], values[i + 1], t);
  }
  return {
    channel: { ...channel, values: curve, sampling: { kind: "even", start: seconds(start), step: seconds(step), count } },
    deadBand,
  };
}

type Point = { readonly t: number; readonly value: number };

/**
 * Where the curve bends on its way from row i to the next; null where it leaps, or there is no next. Where it goes on as it came the way is straight: the corner is row i.
 * Where it turns, it came on along the line through the rows before and leaves on the line through the rows after: the corner is where they cross, no
 * further beyond row i than the dead band, for else it would have been written.
 */
function cornerAfter(i: number, times: Float64Array, values: ArrayLike<number>, deadBand: number): Point | null {
  if (i + 1 >= times.length) return null;
  const move = values[i + 1] - values[i];
  if (!(Math.abs(move) <= WITHIN * deadBand)) return null;
  const straight = { t: times[i], value: values[i] };
  if (i === 0 || i + 2 >= times.length) return straight;
  const before = (values[i] - values[i - 1]) / (times[i] - times[i - 1]);
  const after = (values[i + 2] - values[i + 1]) / (times[i + 2] - times[i + 1]);
  if (!(before * move < 0 && after * move > 0)) return straight;
  const sign = Math.sign(before);
  const crossing = times[i] + (move - after * (times[i + 1] - times[i])) / (before - after);
  const beyond = Math.min(deadBand, Math.abs(before) * Math.max(0, crossing - times[i]));
  const t = times[i + 1] - (values[i + 1] - values[i] - sign * beyond) / after;
  return t > times[i] && t <= times[i + 1] ? { t, value: values[i] + sign * beyond } : straight;
}

/** On the straight lines from one point by a corner to another. */
function onWay(from: number, first: number, corner: Point, to: number, last: number, t: number): number {
  if (t < corner.t) return first + ((corner.value - first) * (t - from)) / (corner.t - from);
  return corner.value + ((last - corner.value) * (t - corner.t)) / (to - corner.t || 1);
}
