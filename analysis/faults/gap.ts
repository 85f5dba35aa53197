import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord, Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { columnExtent } from "../numerics/column-extent";
import { sampleInterval } from "./sample-interval";

/**
 * Stretches without samples: intervals far above the usual one in the clock of a file, and runs of missing values of one channel as long.
 * A silence of a log on change is none.
 */
export function findGaps(record: LogRecord): LogFault[] {
  const samplings = [...new Set<Sampling>(record.channels.map((channel) => channel.sampling))];
  const clocks = samplings.flatMap((sampling) => {
    const headings = record.channels.filter((channel) => channel.sampling === sampling).map((channel) => channel.heading);
    const owners: readonly (string | null)[] = samplings.length === 1 ? [null] : headings;
    return gapsOfClock(sampling).flatMap((gap) => owners.map((channel): LogFault => ({ ...gap, channel })));
  });
  return [...clocks, ...record.channels.flatMap(missingValues)];
}

function gapsOfClock(sampling: Sampling): LogFault[] {
  if (sampling.kind !== "listed") return [];
  const interval = sampleInterval(sampling);
  if (interval === null) return [];
  const { times } = sampling;
  const gaps: LogFault[] = [];
  for (let i = 1; i < times.length; i++) {
    if (times[i] - times[i - 1] > interval.longest) {
      gaps.push({ kind: "gap", channel: null, from: timeAt(sampling, i - 1), to: timeAt(sampling, i), note: { kind: "no-samples" } });
    }
  }
  return gaps;
}

function missingValues({ heading, sampling, values }: Channel): LogFault[] {
  const interval = sampleInterval(sampling);
  if (interval === null || columnExtent(values).missing === 0) return [];
  const gaps: LogFault[] = [];
  let last = 0; // last sample with a value, or the first of all
  for (let i = 0; i <= values.length; i++) {
    if (i < values.length && Number.isNaN(values[i])) continue;
    const next = Math.min(i, values.length - 1);
    if (next - last > 1 && timeAt(sampling, next) - timeAt(sampling, last) > interval.longest) {
      gaps.push({
        kind: "gap",
        channel: heading,
        from: timeAt(sampling, last),
        to: timeAt(sampling, next),
        note: { kind: "values-missing" },
      });
    }
    last = next;
  }
  return gaps;
}
