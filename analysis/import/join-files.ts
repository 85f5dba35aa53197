import { ImportError } from "../../shared/problems/import-problem";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord, RowOrigin, Sampling } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import type { FilePart } from "./file-part";
import { moveSampling } from "./move-sampling";

/** Several files as one record over one clock. @throws ImportError where one has instants and another only elapsed time */
export function joinParts(parts: readonly FilePart[]): LogRecord {
  const [first] = parts;
  const odd = parts.find((part) => part.clock.kind !== first.clock.kind);
  if (odd !== undefined) {
    const why = "one has dates, the other only elapsed time";
    throw new ImportError({ id: "files-do-not-join", file: odd.file.name, other: first.file.name, why });
  }
  const epochs = parts.map((part) => (part.clock.kind === "absolute" ? part.clock.epoch : 0));
  const epoch = epochs.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  const moved = parts.map((part, i) => movePart(part, epochs[i] - epoch));
  const zone = parts.map((part) => (part.clock.kind === "absolute" ? part.clock.zone : null)).find((name) => name !== null) ?? null;
  const sum = (key: keyof FilePart["rows"]) => parts.reduce((total, part) => total + part.rows[key], 0);
  return {
    files: parts.map((part) => part.file),
    clock: first.clock.kind === "absolute" ? { kind: "absolute", epoch, zone } : { kind: "elapsed" },
    duration: seconds(moved.reduce((longest, part) => Math.max(longest, part.end), 0)),
    channels: moved.flatMap((part) => part.channels),
    columns: parts.flatMap((part) => part.columns),
    origins: moved.flatMap((part) => part.origins),
    rows: { accepted: sum("accepted"), rejected: sum("rejected"), duplicate: sum("duplicate"), reordered: sum("reordered") },
    rejects: parts.flatMap((part) => part.rejects).slice(0, 100),
    questions: withoutTwins(parts.flatMap((part) => part.questions)),
    notes: parts.flatMap((part) => part.notes),
    faults: moved.flatMap((part) => part.faults).sort((a, b) => a.from - b.from),
  };
}

const withoutTwins = (questions: LogRecord["questions"]) =>
  questions.filter((question, i) => questions.findIndex((other) => other.id === question.id) === i);

type Moved = {
  readonly channels: readonly Channel[];
  readonly origins: readonly RowOrigin[];
  readonly faults: readonly LogFault[];
  readonly end: number;
};

function movePart(part: FilePart, by: number): Moved {
  if (by === 0) return { channels: part.channels, origins: part.origins, faults: part.faults, end: part.duration };
  const seen = new Map<Sampling, Sampling>();
  const move = (sampling: Sampling) => {
    const known = seen.get(sampling) ?? moveSampling(sampling, by);
    seen.set(sampling, known);
    return known;
  };
  return {
    channels: part.channels.map((channel) => ({ ...channel, sampling: move(channel.sampling) })),
    origins: part.origins.map((origin) => ({ ...origin, sampling: move(origin.sampling) })),
    faults: part.faults.map((fault) => ({ ...fault, from: seconds(fault.from + by), to: seconds(fault.to + by) })),
    end: part.duration + by,
  };
}
