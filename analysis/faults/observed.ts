import type { Span } from "../../shared/findings/span";
import type { LogFault, LogFaultKind } from "../../shared/record/log-fault";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { rememberedForTwo } from "../numerics/remember";

/** A stretch of a channel without a fault: `first` and `last` are the indexes of its samples, both inside. */
export type Stretch = Span & { readonly first: number; readonly last: number };

/** Faults between two good samples: the samples at either end still hold. */
const BETWEEN_SAMPLES: readonly LogFaultKind[] = ["gap", "silence", "clock-jump", "clock-reset", "restart"];
/** Faults of one or a few samples that cut nothing: they are read as missing. */
const SINGLE_SAMPLES: readonly LogFaultKind[] = ["spike"];
/** Said of the record, but its values still hold. */
const HARMLESS: readonly LogFaultKind[] = ["duplicate-times", "zone-slip"];

const concerns = (fault: LogFault, channel: Channel) => fault.channel === null || fault.channel === channel.heading;

/**
 * Where a channel can be trusted: its samples less gaps and faults, in order of time. Nothing may be carried across the border of two stretches.
 * A value that was logged on change holds until the next, the last one until the end of its log.
 */
export const stretchesOf = rememberedForTwo(stretchesWithout);

function stretchesWithout(channel: Channel, faults: readonly LogFault[]): readonly Stretch[] {
  const { sampling } = channel;
  const count = sampleCount(sampling);
  const cuts = faults
    .filter((fault) => concerns(fault, channel) && !SINGLE_SAMPLES.includes(fault.kind) && !HARMLESS.includes(fault.kind))
    .map((fault) => cutOf(channel, fault))
    .sort((a, b) => a.after - b.after);
  const stretches: Stretch[] = [];
  let first = 0;
  const close = (last: number, to: Seconds | null) => {
    if (last >= first) stretches.push({ first, last, from: timeAt(sampling, first), to: to ?? timeAt(sampling, last) });
  };
  for (const { after, before } of cuts) {
    if (after >= first) close(Math.min(after, count - 1), null);
    first = Math.max(first, before);
  }
  close(count - 1, sampling.kind === "on-change" ? sampling.until : null);
  return stretches;
}

/** Index of the last good sample before a fault and of the first good one after it. */
function cutOf({ sampling }: Channel, fault: LogFault): { after: number; before: number } {
  const between = BETWEEN_SAMPLES.includes(fault.kind);
  const start = indexAtOrAfter(sampling, fault.from);
  const end = indexAtOrAfter(sampling, fault.to);
  const count = sampleCount(sampling);
  const at = (index: number, t: number) => index < count && timeAt(sampling, index) <= t;
  return {
    after: between && at(start, fault.from) ? start : start - 1,
    before: between || !at(end, fault.to) ? end : end + 1,
  };
}

/** The values of a channel with its spikes taken out as missing; the channel's own array where it has none. Shape [n]. */
export const valuesWithoutSpikes = rememberedForTwo(withoutSpikes);

function withoutSpikes(channel: Channel, faults: readonly LogFault[]): Channel["values"] {
  const spikes = faults.filter((fault) => SINGLE_SAMPLES.includes(fault.kind) && concerns(fault, channel));
  if (spikes.length === 0) return channel.values;
  const values = channel.values.slice();
  for (const { from, to } of spikes) {
    for (let i = indexAtOrAfter(channel.sampling, from); i < values.length && timeAt(channel.sampling, i) <= to; i++)
      values[i] = Number.NaN;
  }
  return values;
}

/** Total time of some spans, s. */
export const totalTime = (spans: readonly Span[]): Seconds => seconds(spans.reduce((sum, { from, to }) => sum + (to - from), 0));
