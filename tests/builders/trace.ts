import type { Span } from "../../shared/findings/span";
import type { Channel } from "../../shared/record/log-record";
import { sampleCount, timesOf } from "../../shared/record/sampling";
import { seconds } from "../../shared/units/quantity";
import { buildPyramid } from "../../src/charts/pyramid";
import type { DrawnChannel } from "../../src/charts/trace-series";
import type { Detail, TraceChannel } from "../../src/worker/messages";

export const span = (from: number, to: number): Span => ({ from: seconds(from), to: seconds(to) });

/** A channel as the trace draws it. */
export function traceOf(channel: Channel): TraceChannel {
  const { heading, role, position, unitInFile, quantity, sampling } = channel;
  const interval = sampling.kind === "even" ? sampling.step : 1;
  const common = { heading, role, position, unitInFile, quantity, interval, step: 0, samples: sampleCount(sampling) };
  return { ...common, held: sampling.kind === "on-change", even: sampling.kind === "even", pyramid: buildPyramid(channel, interval) };
}

export const drawnOf = (channel: Channel, gaps: readonly Span[] = []): DrawnChannel => ({ trace: traceOf(channel), gaps });

/** All samples of a channel at hand. */
export const samplesOf = (channel: Channel): Detail["channels"][number] => ({ times: timesOf(channel.sampling), values: channel.values });
