import { isCannotTell, type Segments } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import type { LogFault } from "../../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../../shared/record/log-record";
import { indexAtOrAfter, sampleCount } from "../../../shared/record/sampling";
import { median, quantile } from "../../numerics/order-statistics";
import { instantsOf } from "../../segments/instants";

/** The channels the model reads, on the times of the pressure. Shapes [n]; NaN where missing. */
export type Trace = {
  readonly times: Float64Array; // s
  readonly pressure: ArrayLike<number>; // Pa gauge
  readonly flow: ArrayLike<number> | null; // m3/s
  readonly meter: "after-tank" | "before-tank" | null;
  /** Share of full speed. */
  readonly speed: Channel["values"] | null;
  /** Index of the run each sample belongs to, -1 at rest. */
  readonly run: Int32Array;
  readonly runs: readonly (Span & { readonly complete: boolean })[];
  readonly interval: number; // median, s
};

/** Null where pressure or pump state is missing. */
export function traceOf(record: LogRecord, segments: Segments, faults: readonly LogFault[]): Trace | null {
  const pressure = mainChannel(record, "pressure");
  if (pressure === null || isCannotTell(segments.pump) || sampleCount(pressure.sampling) < 60) return null;
  const times = instantsOf(pressure.sampling);
  const flow = mainChannel(record, "flow");
  const speed = mainChannel(record, "speed");
  const steps = Float64Array.from({ length: Math.min(times.length - 1, 2000) }, (_, i) => times[i + 1] - times[i]);
  return {
    times,
    pressure: withoutFaults(pressure, times, faults),
    flow: flow === null ? null : onTimes(flow, times, pressure),
    meter: flow === null ? null : segments.meter.place,
    speed: speed === null ? null : speedShare(speed, onTimes(speed, times, pressure)),
    run: runOfSamples(times, segments.pump.runs),
    runs: segments.pump.runs,
    interval: median(steps),
  };
}

function withoutFaults(channel: Channel, times: Float64Array, faults: readonly LogFault[]): ArrayLike<number> {
  const own = faults.filter((fault) => fault.channel === channel.heading && fault.kind !== "gap" && fault.kind !== "clipped");
  if (own.length === 0) return channel.values;
  const values = Float64Array.from(channel.values);
  for (const fault of own) {
    for (let i = indexAtOrAfter(channel.sampling, fault.from); i < times.length && times[i] <= fault.to; i++) values[i] = Number.NaN;
  }
  return values;
}

/** Values at the pressure's times: its own samples where they share a sampling, else the last value before. */
function onTimes(channel: Channel, times: Float64Array, pressure: Channel): Channel["values"] {
  if (channel.sampling === pressure.sampling) return channel.values;
  const own = instantsOf(channel.sampling);
  const values = new Float64Array(times.length);
  let at = 0;
  for (let i = 0; i < times.length; i++) {
    while (at + 1 < own.length && own[at + 1] <= times[i] + 1e-9) at++;
    values[i] = own.length > 0 && own[at] <= times[i] + 1e-9 ? channel.values[at] : Number.NaN;
  }
  return values;
}

/** Full speed: 100 %, mains frequency where the highest is near 50 or 60 Hz, else the highest logged. */
function speedShare(channel: Channel, values: Channel["values"]): Channel["values"] {
  const top = quantile(values, 0.9995);
  const mains = channel.quantity === "frequency" ? [50, 60].find((hz) => top > 0.9 * hz && top <= 1.02 * hz) : undefined;
  const full = channel.quantity === "fraction" ? Math.max(1, top) : (mains ?? top);
  if (full === 1) return values;
  const share = new Float64Array(values.length);
  for (let i = 0; i < share.length; i++) share[i] = values[i] / full;
  return share;
}

function runOfSamples(times: Float64Array, runs: readonly Span[]): Int32Array {
  const of = new Int32Array(times.length).fill(-1);
  let r = 0;
  for (let i = 0; i < times.length; i++) {
    while (r < runs.length && runs[r].to < times[i]) r++;
    if (r < runs.length && runs[r].from <= times[i]) of[i] = r;
  }
  return of;
}

/** First sample at or after a time. O(log n). */
export function sampleAt(trace: Trace, t: number): number {
  let [low, high] = [0, trace.times.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (trace.times[middle] < t) low = middle + 1;
    else high = middle;
  }
  return low;
}
