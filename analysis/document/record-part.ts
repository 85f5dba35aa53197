import type { Span } from "../../shared/findings/span";
import { type Clock, writeInstant } from "../../shared/record/clock";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord, Sampling } from "../../shared/record/log-record";
import { sampleCount } from "../../shared/record/sampling";
import type { FindingsDocument, SpanField } from "../../shared/schemas/findings-document";
import { seconds } from "../../shared/units/quantity";
import { sayColumnReason } from "../../shared/wording/column-reason";
import { sayFaultNote } from "../../shared/wording/fault-note";
import { sayQuestion } from "../../shared/wording/import-question";
import { noteKind, sayReadingNote } from "../../shared/wording/reading-note";
import { sayRejected } from "../../shared/wording/row-refusal";
import { columnExtent } from "../numerics/column-extent";

export const writeSpan = (clock: Clock, span: Span): SpanField => ({
  from: writeInstant(clock, span.from),
  to: writeInstant(clock, span.to),
});

/** Only finite numbers reach the document: what is not known is null. */
export const known = (value: number | null | undefined): number | null =>
  value === null || value === undefined || !Number.isFinite(value) ? null : value;

/** The record's part of the findings document: what was read, and what was noticed while reading. */
export function writeRecord(record: LogRecord, faults: readonly LogFault[], locale: string | null): FindingsDocument["record"] {
  const { clock } = record;
  return {
    files: record.files.map(({ name, bytes, sha256 }) => ({ name, bytes, sha256 })),
    clock: clock.kind,
    zone: clock.kind === "absolute" ? clock.zone : null,
    ...writeSpan(clock, { from: seconds(0), to: record.duration }),
    rows: record.rows,
    rejects: record.rejects.map((reject) => ({ file: reject.file, row: reject.row, why: sayRejected(reject, locale) })),
    channels: record.channels.map((channel) => writeChannel(channel, locale)),
    columns: record.columns,
    questions: record.questions.map(({ id, asks, options, assumed }) => {
      const { text, meaning } = sayQuestion(asks, locale);
      return { id, text, options, meaning, assumed };
    }),
    notes: record.notes.map((note) => ({ kind: noteKind(note), text: sayReadingNote(note, locale) })),
    faults: faults.map((fault) => ({
      kind: fault.kind,
      channel: fault.channel,
      ...writeSpan(clock, fault),
      note: sayFaultNote(fault.note, locale),
    })),
  };
}

function writeChannel(channel: Channel, locale: string | null): FindingsDocument["record"]["channels"][number] {
  const { low, high, missing } = columnExtent(channel.values);
  return {
    heading: channel.heading,
    index: channel.index,
    role: channel.role,
    position: channel.position,
    unit: channel.unitInFile,
    quantity: channel.quantity,
    samples: channel.values.length,
    missing,
    intervalS: medianInterval(channel.sampling),
    min: known(low),
    max: known(high),
    firstValues: Array.from(channel.values.subarray(0, 5), known),
    certainty: channel.certainty,
    reason: sayColumnReason(channel.reason, locale),
  };
}

/** Typical distance of two samples, s; null with fewer than two. */
export function medianInterval(sampling: Sampling): number | null {
  if (sampleCount(sampling) < 2) return null;
  if (sampling.kind === "even") return sampling.step;
  const steps = new Float64Array(sampling.times.length - 1);
  for (let i = 0; i < steps.length; i++) steps[i] = sampling.times[i + 1] - sampling.times[i];
  steps.sort();
  const middle = steps.length >>> 1;
  const median = steps.length % 2 === 1 ? steps[middle] : (steps[middle - 1] + steps[middle]) / 2;
  return Math.round(median * 1e6) / 1e6;
}
