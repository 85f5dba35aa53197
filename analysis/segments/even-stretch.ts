import type { Span } from "../../shared/findings/span";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../shared/record/sampling";
import { seconds } from "../../shared/units/quantity";
import { quantileInPlace } from "../numerics/order-statistics";
import { remembered, rememberedForTwo } from "../numerics/remember";

/** A stretch of one channel without a gap, on an even grid: values[i] at from + i * step. */
export type EvenStretch = Span & {
  readonly step: number;
  /**
   * Shape [n], SI, none missing. Between the samples of an uneven clock it is a straight line (the last value, where logged on change). The channel's own
   * array where that is even and whole: never to be changed.
   */
  readonly values: Float32Array | Float64Array;
  /** Indexes of the channel's own samples: `first` inclusive, `end` exclusive. */
  readonly first: number;
  readonly end: number;
};

/** Faults whose values are not the process's: they cut a stretch, or are bridged where short. */
const WRONG_VALUES = new Set<LogFault["kind"]>(["stuck-value", "clipped", "spike", "below-live-zero", "above-range", "sensor-swap"]);
/** A hole up to this many intervals is bridged by a straight line: absent seconds, a single spike. Longer ones cut. */
const BRIDGED_INTERVALS = 3.5;
/** A log on change over a year must not become a grid that fills the memory. */
const MOST_GRID_POINTS = 1_000_000;

/** The usual interval between samples, s: the median (a low quantile for a log on change, which is silent while nothing moves). NaN with one sample. */
export function usualInterval(channel: Channel): number {
  const s = channel.sampling;
  if (s.kind === "even") return s.count > 1 ? s.step : Number.NaN;
  const n = s.times.length;
  const stride = Math.max(1, Math.floor((n - 1) / 20_000));
  const steps = new Float64Array(Math.max(0, Math.floor((n - 1) / stride)));
  for (let i = 0; i < steps.length; i++) steps[i] = s.times[i * stride + 1] - s.times[i * stride];
  if (s.kind === "listed") return quantileInPlace(steps, 0.5);
  return Math.max(quantileInPlace(steps, 0.1), (s.until - s.times[0]) / MOST_GRID_POINTS);
}

/**
 * The stretches of a channel inside the given spans that have neither gap nor fault, each at least `least` samples long.
 * O(samples). `within` null: the whole record. Worked out once for the same lists; the values must not be changed.
 */
export function evenStretches(
  channel: Channel,
  faults: readonly LogFault[],
  within: readonly Span[] | null,
  least = 16,
): readonly EvenStretch[] {
  const all = stretchesWithin(channel, faults)(within ?? WHOLE);
  return all.filter(({ values }) => values.length >= least);
}

/** Stands for the whole record. */
const WHOLE: readonly Span[] = [];

const stretchesWithin = rememberedForTwo((channel: Channel, faults: readonly LogFault[]) =>
  remembered((within: readonly Span[]) => allStretches(channel, faults, within)),
);

function allStretches(channel: Channel, faults: readonly LogFault[], within: readonly Span[]): EvenStretch[] {
  const step = usualInterval(channel);
  const n = sampleCount(channel.sampling);
  if (!(step > 0) || n < 1) return [];
  const wrong = faults.filter((f) => (f.channel === null || f.channel === channel.heading) && WRONG_VALUES.has(f.kind));
  const masked = maskOf(channel, wrong);
  const stretches: EvenStretch[] = [];
  const spans = within === WHOLE ? [{ from: timeAt(channel.sampling, 0), to: timeAt(channel.sampling, n - 1) }] : within;
  for (const span of spans) {
    const first = indexAtOrAfter(channel.sampling, span.from);
    const end = indexAtOrAfter(channel.sampling, span.to + step * 1e-6);
    for (const [a, b] of unbroken(channel, masked, first, end, step)) {
      stretches.push(onGrid(channel, masked, a, b, step));
    }
  }
  return stretches;
}

/** 1 where a sample must not be used; null where every sample may be. */
function maskOf(channel: Channel, wrong: readonly LogFault[]): Uint8Array | null {
  if (wrong.length === 0) return null;
  const mask = new Uint8Array(channel.values.length);
  for (const fault of wrong) {
    const end = Math.max(indexAtOrAfter(channel.sampling, fault.from) + 1, indexAtOrAfter(channel.sampling, fault.to + 1e-6));
    mask.fill(1, indexAtOrAfter(channel.sampling, fault.from), end);
  }
  return mask;
}

/** Index ranges whose usable samples follow each other closely enough. */
function unbroken(channel: Channel, mask: Uint8Array | null, first: number, end: number, step: number): [number, number][] {
  const { sampling, values } = channel;
  const reach = sampling.kind === "on-change" ? Number.POSITIVE_INFINITY : step * BRIDGED_INTERVALS;
  const ranges: [number, number][] = [];
  let begin = -1;
  let last = -1;
  for (let i = first; i < end; i++) {
    const v = values[i];
    if (v - v !== 0 || (mask !== null && mask[i] === 1)) continue;
    if (begin >= 0 && (i - last > 1 || sampling.kind !== "even") && timeAt(sampling, i) - timeAt(sampling, last) > reach) {
      ranges.push([begin, last + 1]);
      begin = i;
    }
    if (begin < 0) begin = i;
    last = i;
  }
  if (begin >= 0) ranges.push([begin, last + 1]);
  return ranges;
}

function onGrid(channel: Channel, mask: Uint8Array | null, first: number, end: number, step: number): EvenStretch {
  const { sampling, values } = channel;
  const from = timeAt(sampling, first);
  const to = timeAt(sampling, end - 1);
  const count = Math.floor((to - from) / step + 1e-6) + 1;
  if (sampling.kind === "even" && count === end - first && mask === null && isWhole(values, first, end))
    return { from, to: seconds(from + (count - 1) * step), step, values: values.subarray(first, end), first, end };
  const grid = new Float64Array(count);
  let left = first;
  let right = first;
  for (let k = 0; k < count; k++) {
    const t = from + k * step;
    while (right < end - 1 && (timeAt(sampling, right) < t - step * 1e-6 || !usable(values, mask, right))) {
      if (usable(values, mask, right)) left = right;
      right++;
    }
    grid[k] = between(channel, left, right, t);
  }
  return { from, to: seconds(from + (count - 1) * step), step, values: grid, first, end };
}

function isWhole(values: ArrayLike<number>, first: number, end: number): boolean {
  for (let i = first; i < end; i++) if (values[i] - values[i] !== 0) return false;
  return true;
}

const usable = (values: ArrayLike<number>, mask: Uint8Array | null, i: number): boolean =>
  values[i] - values[i] === 0 && (mask === null || mask[i] === 0);

function between({ sampling, values }: Channel, left: number, right: number, t: number): number {
  const a = timeAt(sampling, left);
  const b = timeAt(sampling, right);
  if (b <= t || b === a) return values[right];
  if (sampling.kind === "on-change") return values[left];
  return values[left] + ((t - a) / (b - a)) * (values[right] - values[left]);
}
