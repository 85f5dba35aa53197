import type { Channel, Sampling } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { rememberedForTwo } from "../numerics/remember";

/**
 * Volume since the first sample of a flow channel, shape [n], m3: straight between samples, held in a log on change.
 * A missing sample is bridged from its neighbours; a gap must be cut by the caller, as its volume is a guess here.
 */
export const cumulativeVolume = rememberedForTwo(volumeSinceFirst);

function volumeSinceFirst({ sampling }: Channel, values: ArrayLike<number>): Float64Array {
  const volume = new Float64Array(values.length);
  const hold = sampling.kind === "on-change";
  let before = 0;
  let time = values.length > 0 ? (timeAt(sampling, 0) as number) : 0;
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const t = timeAt(sampling, i);
    const flow = Number.isNaN(values[i]) ? before : values[i];
    sum += (t - time) * (hold || i === 0 ? before : (before + flow) / 2);
    volume[i] = sum;
    before = flow;
    time = t;
  }
  return volume;
}

/** Volume up to an instant, m3: cumulated samples, then straight on with the flow there. */
export function volumeAt(sampling: Sampling, volume: Float64Array, values: ArrayLike<number>, t: number): number {
  const next = indexAtOrAfter(sampling, t);
  if (next === 0) return volume[0] ?? 0;
  const i = next - 1;
  if (sampling.kind === "on-change" || next >= volume.length) return volume[i] + Math.max(0, values[i] || 0) * (t - timeAt(sampling, i));
  const span = timeAt(sampling, next) - timeAt(sampling, i);
  const past = t - timeAt(sampling, i);
  const a = values[i];
  const b = values[next];
  if (Number.isNaN(a) || Number.isNaN(b)) return volume[i] + ((volume[next] - volume[i]) * past) / span;
  return volume[i] + past * (a + ((b - a) * past) / (2 * span));
}

export const volumeBetween = (sampling: Sampling, volume: Float64Array, values: ArrayLike<number>, from: number, to: number): number =>
  volumeAt(sampling, volume, values, to) - volumeAt(sampling, volume, values, from);
