import type { Span } from "../../../shared/findings/span";
import { channelsOf } from "../../../shared/record/find-channel";
import type { LogRecord } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";

const FROST = 274.65; // K, 1.5 C: a sensor's line is colder than the air it is measured in, or warmer, by a degree or so

/** Whether any logged temperature came near freezing during a stretch. */
export function isFrost(record: LogRecord, { from, to }: Span): boolean {
  return channelsOf(record, "temperature").some(({ sampling, values }) => {
    for (let i = indexAtOrAfter(sampling, from); i < values.length && timeAt(sampling, i) <= to; i++) if (values[i] <= FROST) return true;
    return false;
  });
}
