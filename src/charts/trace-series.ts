import type { Span } from "../../shared/findings/span";
import type { LogFault } from "../../shared/record/log-fault";
import type { Detail, TraceChannel } from "../worker/messages";
import { pyramidColumns } from "./pyramid";

/** A value; null is a break in the line; undefined is "this channel has no sample here", and the line runs on. */
export type Point = number | null | undefined;
/** Times [n], s after the record's first instant, and per channel values [n] in the unit shown. */
export type TraceSeries = { readonly times: Float64Array; readonly values: readonly Point[][] };

/** A channel with the stretches where it has no values because the log was silent. */
export type DrawnChannel = { readonly trace: TraceChannel; readonly gaps: readonly Span[] };

/** The gaps of one channel: those of the whole record and its own, in order of time. */
export function gapsOf(faults: readonly LogFault[], heading: string): readonly Span[] {
  return faults
    .filter(({ kind, channel }) => (kind === "gap" || kind === "silence") && (channel === null || channel === heading))
    .sort((a, b) => a.from - b.from);
}

/**
 * The window as columns one pixel wide: two points a column, the least value and the greatest, so that no spike is lost.
 * Columns stand on whole multiples of their width, so that a picture does not shimmer while it moves.
 * @param toShown SI to the unit shown
 */
export function columnSeries(
  channels: readonly DrawnChannel[],
  window: Span,
  columns: number,
  toShown: (si: number) => number,
): TraceSeries {
  const step = (window.to - window.from) / columns;
  const first = Math.floor(window.from / step) * step;
  const count = columns + 2;
  const times = new Float64Array(2 * count);
  for (let c = 0; c < count; c++) {
    times[2 * c] = first + (c + 0.25) * step;
    times[2 * c + 1] = first + (c + 0.75) * step;
  }
  return { times, values: channels.map((channel) => channelColumns(channel, first, step, count, toShown)) };
}

function channelColumns(
  { trace, gaps }: DrawnChannel,
  first: number,
  step: number,
  count: number,
  toShown: (si: number) => number,
): Point[] {
  const { min, max } = pyramidColumns(trace.pyramid, first, step, count);
  const points: Point[] = new Array(2 * count);
  let gap = 0;
  for (let c = 0; c < count; c++) {
    const [from, to] = [first + c * step, first + (c + 1) * step];
    while (gap < gaps.length && gaps[gap].to < from) gap++;
    const next = gap < gaps.length ? gaps[gap] : null;
    // A value that holds until the next one does not hold while the log is silent.
    const isSilent = next !== null && next.from <= from && to <= next.to;
    if (Number.isNaN(min[c]) || isSilent) {
      const isBroken = isSilent || trace.even || (next !== null && next.from <= to);
      points[2 * c] = points[2 * c + 1] = isBroken ? null : undefined;
    } else {
      const [low, high] = [toShown(min[c]), toShown(max[c])];
      // Up in one column, down in the next: neighbours meet at the same end.
      points[2 * c] = c % 2 === 0 ? low : high;
      points[2 * c + 1] = c % 2 === 0 ? high : low;
    }
  }
  return points;
}

/** The samples themselves, channels of different loggers on one time axis; a gap becomes a break at its middle. */
export function sampleSeries(channels: readonly DrawnChannel[], detail: Detail["channels"], toShown: (si: number) => number): TraceSeries {
  const broken = channels.map((channel, k) => withBreaks(detail[k], channel.gaps, toShown));
  if (broken.every(({ times }) => sameTimes(times, broken[0].times)))
    return { times: broken[0].times, values: broken.map((b) => b.values) };
  const times = unionOf(broken.map((b) => b.times));
  return { times, values: broken.map((b) => laidOn(times, b)) };
}

type Line = { readonly times: Float64Array; readonly values: Point[] };

function withBreaks(samples: Detail["channels"][number], gaps: readonly Span[], toShown: (si: number) => number): Line {
  const times: number[] = [];
  const values: Point[] = [];
  let gap = 0;
  for (let i = 0; i < samples.times.length; i++) {
    const t = samples.times[i];
    const before = i === 0 ? -Infinity : samples.times[i - 1];
    for (; gap < gaps.length && gaps[gap].to <= t; gap++) {
      const middle = (Math.max(gaps[gap].from, before) + gaps[gap].to) / 2;
      if (middle > before && middle < t && middle > (times.at(-1) ?? -Infinity)) {
        times.push(middle);
        values.push(null);
      }
    }
    times.push(t);
    values.push(Number.isNaN(samples.values[i]) ? null : toShown(samples.values[i]));
  }
  return { times: Float64Array.from(times), values };
}

function sameTimes(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function unionOf(lists: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(lists.reduce((n, list) => n + list.length, 0));
  let n = 0;
  for (const list of lists) {
    all.set(list, n);
    n += list.length;
  }
  all.sort();
  let kept = 0;
  for (let i = 0; i < n; i++) if (kept === 0 || all[i] !== all[kept - 1]) all[kept++] = all[i];
  return all.slice(0, kept);
}

function laidOn(times: Float64Array, line: Line): Point[] {
  const values: Point[] = new Array(times.length).fill(undefined);
  for (let i = 0, k = 0; i < times.length && k < line.times.length; i++) {
    if (times[i] === line.times[k]) values[i] = line.values[k++];
  }
  return values;
}
