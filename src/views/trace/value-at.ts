import { pyramidColumns } from "../../charts/pyramid";
import type { DrawnChannel } from "../../charts/trace-series";
import type { Detail } from "../../worker/messages";

/** What a channel reads at an instant: one value (low equals high), or the least and greatest of the pixel there. SI. */
export type Read = { readonly low: number; readonly high: number };

/**
 * The sample nearest to an instant where the samples are at hand (the last one before it where a value holds until the next), else
 * the pixel's least and greatest. Null in a gap and where the value is missing.
 * @param pixel width of a pixel, s
 */
export function valueAt(channel: DrawnChannel, samples: Detail["channels"][number] | null, t: number, pixel: number): Read | null {
  if (channel.gaps.some(({ from, to }) => from < t && t < to)) return null;
  const near = samples === null ? null : sampleNear(channel, samples, t, pixel);
  if (near !== null) return Number.isNaN(near) ? null : { low: near, high: near };
  const { min, max } = pyramidColumns(channel.trace.pyramid, t - pixel / 2, pixel, 1);
  return Number.isNaN(min[0]) ? null : { low: min[0], high: max[0] };
}

function sampleNear({ trace }: DrawnChannel, { times, values }: Detail["channels"][number], t: number, pixel: number): number | null {
  if (times.length === 0 || t < times[0] - pixel || t > times[times.length - 1] + Math.max(pixel, trace.interval ?? 0)) return null;
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (times[middle] <= t) low = middle + 1;
    else high = middle;
  }
  const before = Math.max(0, low - 1);
  const after = Math.min(times.length - 1, low);
  return trace.held || t - times[before] <= times[after] - t ? values[before] : values[after];
}
