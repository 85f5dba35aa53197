import type { PumpState } from "../../shared/findings/segment";
import { type Span, spanLength } from "../../shared/findings/span";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { seconds } from "../../shared/units/quantity";
import type { Stretch } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { median } from "../numerics/order-statistics";
import { restsOf } from "./starts";
import { volumeAt } from "./volume";

/** One rest of the pump as the tank sees it: points of volume drawn since its begin and inverse absolute pressure. */
export type TankTrace = {
  readonly span: Span;
  /** Shapes [n]: s in the record; m3; 1/Pa; m3/s. */
  readonly times: Float64Array;
  /** Index of each point's pressure sample, shape [n]. */
  readonly samples: Uint32Array;
  readonly drawn: Float64Array;
  readonly inverse: Float64Array;
  readonly flow: Float64Array;
  /** Points from here on are within the instants around the pump's next start: for the knee only. */
  readonly calmUntil: number;
};

export type Meter = {
  readonly channel: Channel;
  readonly values: ArrayLike<number>;
  readonly volume: Float64Array;
  readonly stretches: readonly Stretch[];
};
export type Gauge = {
  readonly channel: Channel;
  readonly values: ArrayLike<number>;
  readonly stretches: readonly Stretch[];
  readonly atmosphere: number;
};

const RUN_UP = 6; // s after a start in which an empty tank lets the pressure fall on until the pump gives
const SETTLE = 3; // s after a stop until pump and check valve are still
const LEAST_POINTS = 4;

/** Every rest of the pump with pressure and metered volume throughout, in order of time. */
export function tankTraces(pump: PumpState, gauge: Gauge, meter: Meter): TankTrace[] {
  const step = Math.max(sampleInterval(gauge.channel.sampling)?.median ?? 0, sampleInterval(meter.channel.sampling)?.median ?? 0);
  const unsure = pump.basis === "pressure" || pump.basis === "flow" ? 2 * step : 0;
  return surelyAtRest(pump, gauge).flatMap((rest) => {
    const span = { from: seconds(rest.from + Math.max(SETTLE, step) + unsure), to: seconds(rest.to + Math.max(step, RUN_UP)) };
    if (spanLength(span) < LEAST_POINTS * step || !covered(meter.stretches, span) || !covered(gauge.stretches, span)) return [];
    return traceOf(span, rest.to - step / 2 - unsure, gauge, meter) ?? [];
  });
}

/** How far a fall from the held to the starting pressure has come where a drive that still ran would long have turned it. Our own choice. */
const LET_FALL = 0.25;

/**
 * The rests of the pump. Where pressure alone tells of a drive, it may run on long after it gave its last water: such a rest begins where the fall that ends in
 * the next start leaves the held pressure for good, as a drive that runs does not let it.
 */
function surelyAtRest(pump: PumpState, { channel, values }: Gauge): Span[] {
  const rests = restsOf(pump);
  const hidden = new Set<number>(pump.basis === "pressure" ? pump.runs.flatMap(({ to, complete }) => (complete ? [] : [to])) : []);
  const open = rests.filter(({ from }) => hidden.has(from));
  if (open.length === 0) return rests;
  const at = (t: number) => values[Math.min(values.length - 1, indexAtOrAfter(channel.sampling, t))];
  const held = median(open.flatMap(({ from }) => known(at(from))));
  const starting = median(open.flatMap(({ to }) => known(at(to))));
  const left = held - LET_FALL * (held - starting);
  return rests.map((rest) => {
    if (!hidden.has(rest.from)) return rest;
    let i = indexAtOrAfter(channel.sampling, rest.to);
    while (i > 0 && timeAt(channel.sampling, i - 1) > rest.from && !(values[i - 1] > left)) i--;
    return { ...rest, from: seconds(Math.min(rest.to, Math.max(rest.from, timeAt(channel.sampling, i)))) };
  });
}

const known = (value: number): number[] => (Number.isFinite(value) ? [value] : []);

/** Whether one stretch holds the whole span; by halving, as there may be many of both. */
function covered(stretches: readonly Stretch[], span: Span): boolean {
  let low = 0;
  let high = stretches.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (stretches[middle].to < span.to) low = middle + 1;
    else high = middle;
  }
  return low < stretches.length && stretches[low].from <= span.from;
}

/** A long rest needs not every sample: so many spread over it, and all of the last, where a knee would be. */
const MOST_POINTS = 90;
const LAST_POINTS = 30;

function traceOf(span: Span, calmEnd: number, gauge: Gauge, meter: Meter): TankTrace | null {
  const { sampling } = gauge.channel;
  const first = indexAtOrAfter(sampling, span.from);
  const last = lowestNearEnd(gauge, first, span.to, calmEnd);
  const stride = Math.max(1, Math.floor((last - LAST_POINTS - first) / MOST_POINTS));
  const most = Math.ceil((last - first + 1) / stride) + LAST_POINTS + 1;
  const [times, drawn, inverse, flow] = [new Float64Array(most), new Float64Array(most), new Float64Array(most), new Float64Array(most)];
  const samples = new Uint32Array(most);
  const before = volumeAt(meter.channel.sampling, meter.volume, meter.values, timeAt(sampling, first));
  let n = 0;
  for (let i = first; i <= last; i += i < last - LAST_POINTS ? stride : 1) {
    if (Number.isNaN(gauge.values[i])) continue;
    samples[n] = i;
    times[n] = timeAt(sampling, i);
    drawn[n] = volumeAt(meter.channel.sampling, meter.volume, meter.values, times[n]) - before;
    inverse[n] = 1 / (gauge.values[i] + gauge.atmosphere);
    flow[n] = meter.values[Math.min(indexAtOrAfter(meter.channel.sampling, times[n]), meter.values.length - 1)] || 0;
    n++;
  }
  if (n < LEAST_POINTS) return null;
  let calmUntil = 0;
  while (calmUntil < n && times[calmUntil] <= calmEnd) calmUntil++;
  return {
    span: { from: span.from, to: seconds(times[n - 1]) },
    times: times.subarray(0, n),
    samples: samples.subarray(0, n),
    drawn: drawn.subarray(0, n),
    inverse: inverse.subarray(0, n),
    flow: flow.subarray(0, n),
    calmUntil,
  };
}

/** The pump's start is known to a sample; the lowest pressure about it ends the tank's own part. */
function lowestNearEnd({ channel, values }: Gauge, first: number, to: number, calmEnd: number): number {
  let lowest = first;
  let i = first;
  for (; i < values.length && timeAt(channel.sampling, i) <= to; i++) {
    if (timeAt(channel.sampling, i) <= calmEnd || !(values[i] >= values[lowest])) lowest = i;
  }
  return lowest;
}
