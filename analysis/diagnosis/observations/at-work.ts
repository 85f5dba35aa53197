import type { Segments } from "../../../shared/findings/segment";
import type { LogRecord } from "../../../shared/record/log-record";
import { type Trace, traceOf } from "../../model/fit/trace";
import { rememberedForTwo } from "../../numerics/remember";
import type { Sight } from "./sight";

const traceBetween = rememberedForTwo((record: LogRecord, segments: Segments) => traceOf(record, segments, []));

/** Pressure, flow, speed and pump state on the same instants; null without a pressure or a pump state. Worked out once a record. */
export const traceIn = ({ record, segments }: Sight): Trace | null => traceBetween(record, segments);

/** A stretch of samples, ends included. */
export type Stretch = { readonly first: number; readonly last: number };

/** Stretches of at least `least` s in which a condition holds at every sample; a missing value or a gap of three intervals ends one. O(n). */
export function stretchesWhere(trace: Trace, least: number, holds: (i: number) => boolean): Stretch[] {
  const { times } = trace;
  const found: Stretch[] = [];
  let first = -1;
  const close = (last: number) => {
    if (first >= 0 && times[last] - times[first] >= least) found.push({ first, last });
    first = -1;
  };
  for (let i = 0; i < times.length; i++) {
    const gap = i > 0 && times[i] - times[i - 1] > 3 * trace.interval;
    if (gap) close(i - 1);
    if (holds(i)) first = first < 0 ? i : first;
    else close(i - 1);
  }
  close(times.length - 1);
  return found;
}

export const lengthOf = ({ times }: Trace, { first, last }: Stretch): number => times[last] - times[first];

/** Values of a channel over stretches, without the missing ones. */
export function valuesIn(values: ArrayLike<number>, stretches: readonly Stretch[]): number[] {
  const seen: number[] = [];
  for (const { first, last } of stretches) for (let i = first; i <= last; i++) if (!Number.isNaN(values[i])) seen.push(values[i]);
  return seen;
}
