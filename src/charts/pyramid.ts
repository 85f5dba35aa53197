import type { Channel } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";

/**
 * Least and greatest value per stretch of time, at several widths: level 0 has stretches of `width` seconds from `start` on,
 * each further level is four times wider. NaN where a stretch holds no value. A picture drawn from it never hides a spike.
 */
export type Pyramid = {
  readonly start: number;
  readonly width: number;
  readonly levels: readonly { readonly min: Float32Array; readonly max: Float32Array }[];
};

type Sampled = Pick<Channel, "sampling" | "values">;

const SAMPLES_PER_BLOCK = 16;
const FAN_IN = 4;
/** The top of the pyramid is about as wide as a narrow phone. */
const SMALLEST_LEVEL = 256;

/** One pass over the samples. Memory about a sixth of the Float32 samples. Unevenly sampled records use stretches of their median interval. */
export function buildPyramid(channel: Sampled, interval: number | null): Pyramid {
  const base = channel.sampling.kind === "even" ? evenBase(channel) : listedBase(channel, interval ?? 1);
  const levels = [base.level];
  while (levels[levels.length - 1].min.length > SMALLEST_LEVEL) levels.push(coarser(levels[levels.length - 1]));
  return { start: base.start, width: base.width, levels };
}

type Level = Pyramid["levels"][number];
type Base = { readonly start: number; readonly width: number; readonly level: Level };

const emptyLevel = (length: number): Level => ({ min: new Float32Array(length).fill(NaN), max: new Float32Array(length).fill(NaN) });

function evenBase(channel: Sampled): Base {
  const { sampling, values } = channel;
  if (sampling.kind !== "even") throw new RangeError("evenBase: sampling is not even");
  // A short record is drawn as finely as a narrow picture can show it.
  const perBlock = Math.max(1, Math.min(SAMPLES_PER_BLOCK, Math.ceil(values.length / SMALLEST_LEVEL)));
  const level = emptyLevel(Math.ceil(values.length / perBlock));
  for (let block = 0, i = 0; block < level.min.length; block++) {
    const end = Math.min(values.length, i + perBlock);
    let low = Infinity;
    let high = -Infinity;
    for (; i < end; i++) {
      const value = values[i];
      if (value < low) low = value;
      if (value > high) high = value;
    }
    if (low <= high) {
      level.min[block] = low;
      level.max[block] = high;
    }
  }
  return { start: sampling.start, width: sampling.step * perBlock, level };
}

function listedBase(channel: Sampled, interval: number): Base {
  const { sampling, values } = channel;
  const n = sampleCount(sampling);
  if (n === 0) return { start: 0, width: interval * SAMPLES_PER_BLOCK, level: emptyLevel(0) };
  const start = timeAt(sampling, 0);
  const end = sampling.kind === "on-change" ? sampling.until : timeAt(sampling, n - 1);
  // Bursts and long silence: no more stretches than a fourth of the samples, or the top level.
  const finest = (end - start) / Math.max(SMALLEST_LEVEL, n / FAN_IN);
  const width = Math.max(finest, Math.min(interval * SAMPLES_PER_BLOCK, (end - start) / SMALLEST_LEVEL)) || 1;
  const level = emptyLevel(Math.floor((end - start) / width) + 1);
  for (let i = 0; i < n; i++) {
    const block = Math.floor((timeAt(sampling, i) - start) / width);
    const until = sampling.kind === "on-change" ? heldUntil(channel, i, n) : block;
    const last = sampling.kind === "on-change" ? Math.floor((until - start) / width) : block;
    for (let b = block; b <= last; b++) widen(level, b, values[i]);
  }
  return { start, width, level };
}

const heldUntil = (channel: Sampled, i: number, n: number): number =>
  i + 1 < n
    ? timeAt(channel.sampling, i + 1)
    : channel.sampling.kind === "on-change"
      ? channel.sampling.until
      : timeAt(channel.sampling, i);

function widen(level: Level, block: number, value: number): void {
  if (Number.isNaN(value)) return;
  if (!(level.min[block] <= value)) level.min[block] = value;
  if (!(level.max[block] >= value)) level.max[block] = value;
}

function coarser(fine: Level): Level {
  const level = emptyLevel(Math.ceil(fine.min.length / FAN_IN));
  for (let i = 0; i < fine.min.length; i++) {
    const block = (i / FAN_IN) | 0;
    widen(level, block, fine.min[i]);
    widen(level, block, fine.max[i]);
  }
  return level;
}

/** Least and greatest value of the whole channel; null where it has none. */
export function pyramidRange(pyramid: Pyramid): { readonly low: number; readonly high: number } | null {
  const top = pyramid.levels[pyramid.levels.length - 1];
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < top.min.length; i++) {
    if (top.min[i] < low) low = top.min[i];
    if (top.max[i] > high) high = top.max[i];
  }
  return low <= high ? { low, high } : null;
}

/**
 * Least and greatest value in each of `count` columns of `step` seconds from `from` on, from the coarsest level that still has four
 * stretches a column; stretches at a column's edges count for both neighbours (a quarter of a column at most, save at level 0).
 * @returns min and max, shape [count]; NaN where the column holds no value
 */
export function pyramidColumns(pyramid: Pyramid, from: number, step: number, count: number): Level {
  let chosen = 0;
  let width = pyramid.width;
  while (chosen + 1 < pyramid.levels.length && width * FAN_IN * FAN_IN <= step) {
    width *= FAN_IN;
    chosen++;
  }
  const source = pyramid.levels[chosen];
  const columns = emptyLevel(count);
  for (let c = 0; c < count; c++) {
    const left = (from + c * step - pyramid.start) / width;
    const first = Math.max(0, Math.floor(left));
    const end = Math.min(source.min.length, Math.ceil(left + step / width));
    for (let b = first; b < end; b++) {
      widen(columns, c, source.min[b]);
      widen(columns, c, source.max[b]);
    }
  }
  return columns;
}
