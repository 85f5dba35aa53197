import type { Span } from "../../shared/findings/span";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../shared/record/sampling";
import type { ThinTrace } from "../../shared/record/thin-trace";

/** A stretch of the record thinned to `columns` columns; channels of role "other" are left out. O(samples in the stretch). */
export function thinTrace(record: LogRecord, span: Span, columns: number): ThinTrace {
  const channels = record.channels.filter((channel) => channel.role !== "other" && channel.role !== "time");
  return {
    fromS: span.from,
    toS: span.to,
    channels: channels.map((channel) => ({
      heading: channel.heading,
      role: channel.role,
      quantity: channel.quantity,
      ...thinChannel(channel, span, columns),
    })),
  };
}

function thinChannel({ sampling, values }: Channel, span: Span, columns: number): { low: (number | null)[]; high: (number | null)[] } {
  const low = new Array<number | null>(columns).fill(null);
  const high = new Array<number | null>(columns).fill(null);
  const width = Math.max((span.to - span.from) / columns, Number.MIN_VALUE);
  const end = Math.min(sampleCount(sampling), indexAtOrAfter(sampling, span.to) + 1);
  for (let i = indexAtOrAfter(sampling, span.from); i < end; i++) {
    const value = values[i];
    if (Number.isNaN(value)) continue;
    const column = Math.min(columns - 1, Math.max(0, Math.floor((timeAt(sampling, i) - span.from) / width)));
    low[column] = Math.min(low[column] ?? value, value);
    high[column] = Math.max(high[column] ?? value, value);
  }
  return { low, high };
}
