import type { Span } from "../../shared/findings/span";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../shared/record/sampling";
import type { ThinTrace } from "../../shared/record/thin-trace";

/** A stretch of the record thinned to `columns` columns at most; channels of role "other" are left out. O(samples in the stretch). */
export function thinTrace(record: LogRecord, span: Span, columns: number): ThinTrace {
  const channels = record.channels.filter((channel) => channel.role !== "other" && channel.role !== "time");
  return {
    fromS: span.from,
    toS: span.to,
    channels: channels.map((channel) => ({
      heading: channel.heading,
      role: channel.role,
      quantity: channel.quantity,
      ...thinChannel(channel, span, fittingColumns(channel, span, columns)),
    })),
  };
}

/** A column shorter than the sampling would be empty and look like a gap: no more columns than samples, with room for uneven ones. */
function fittingColumns({ sampling }: Channel, span: Span, most: number): number {
  if (sampling.kind === "on-change") return most;
  const samples = indexAtOrAfter(sampling, span.to) - indexAtOrAfter(sampling, span.from);
  const fitting = sampling.kind === "even" ? (span.to - span.from) / sampling.step : samples / 1.5;
  return Math.max(1, Math.min(most, Math.floor(fitting)));
}

function thinChannel(channel: Channel, span: Span, columns: number): { low: (number | null)[]; high: (number | null)[] } {
  const { sampling, values } = channel;
  const low = new Array<number | null>(columns).fill(null);
  const high = new Array<number | null>(columns).fill(null);
  const width = Math.max((span.to - span.from) / columns, Number.MIN_VALUE);
  const holds = sampling.kind === "on-change";
  const first = indexAtOrAfter(sampling, span.from);
  let [reached, held] = [0, Number.NaN];
  for (let i = holds ? Math.max(0, first - 1) : first; i < sampleCount(sampling) && timeAt(sampling, i) <= span.to; i++) {
    const column = Math.min(columns - 1, Math.max(0, Math.floor((timeAt(sampling, i) - span.from) / width)));
    // A value that holds until the next one stands in every column up to it.
    for (; holds && reached <= column; reached++) add(low, high, reached, held);
    add(low, high, column, values[i]);
    held = values[i];
  }
  for (; holds && reached < columns; reached++) add(low, high, reached, held);
  return { low, high };
}

function add(low: (number | null)[], high: (number | null)[], column: number, value: number): void {
  if (Number.isNaN(value)) return;
  low[column] = Math.min(low[column] ?? value, value);
  high[column] = Math.max(high[column] ?? value, value);
}
