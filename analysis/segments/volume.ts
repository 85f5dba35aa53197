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
  let known = Number.isNaN(values[0]) ? -1 : 0; // the last sample that is not missing
  for (let i = 1; i < values.length; i++) {
    const before = known < 0 ? 0 : values[known];
    if (!Number.isNaN(values[i])) known = i;
    const flow = known < 0 ? 0 : values[known];
    volume[i] = volume[i - 1] + (timeAt(sampling, i) - timeAt(sampling, i - 1)) * (hold ? before : (before + flow) / 2);
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
