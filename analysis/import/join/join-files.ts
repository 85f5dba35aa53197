import { ImportError } from "../../../shared/problems/import-problem";
import type { ImportQuestion } from "../../../shared/record/import-question";
import type { LogRecord, Sampling } from "../../../shared/record/log-record";
import { seconds } from "../../../shared/units/quantity";
import type { FilePart } from "../file-part";
import type { ImportChoices } from "../import-log";
import { checkClocks } from "./lay-over";
import { moveSampling } from "./move-sampling";
import { isSameLog, mergeParts, type PlacedPart } from "./same-log";

/**
 * Several files as one record over one clock: parts of one log joined in order of time, different loggers laid over each other. The order of the
 * files given does not matter. @throws ImportError files-do-not-join where one has dates and another only elapsed time
 */
export function joinParts(parts: readonly FilePart[], choices: ImportChoices): LogRecord {
  refuseMixedClocks(parts);
  const placed = placeParts(parts);
  const logs = findLogs(placed).map(mergeParts);
  const [first, ...others] = logs.sort((a, b) => b.rows.accepted - a.rows.accepted || a.file.name.localeCompare(b.file.name, "en"));
  const checks = others.map((other) => checkClocks(first, other, choices.answers.clock));
  return toRecord(parts, placeAgain([first, ...others.map((other, i) => shiftPart(other, checks[i].shift))]), {
    notes: checks.flatMap((check) => check.notes),
    questions: checks.flatMap((check) => check.question ?? []),
  });
}

function refuseMixedClocks(parts: readonly FilePart[]): void {
  const [first] = parts;
  const odd = parts.find((part) => part.clock.kind !== first.clock.kind);
  if (odd === undefined) return;
  const why = "one has dates, the other only elapsed time";
  throw new ImportError({ id: "files-do-not-join", file: odd.file.name, other: first.file.name, why });
}

const epochOf = (part: Pick<FilePart, "clock">) => (part.clock.kind === "absolute" ? part.clock.epoch : 0);

/** Parts with their instants counted from the earliest of all. */
function placeParts(parts: readonly FilePart[]): PlacedPart[] {
  const epoch = parts.reduce((least, part) => Math.min(least, epochOf(part)), Number.POSITIVE_INFINITY);
  return parts.map(({ layout: _, ...part }) => {
    const by = epochOf(part) - epoch;
    const clock = part.clock.kind === "absolute" ? { ...part.clock, epoch } : part.clock;
    return shiftPart({ ...part, clock, start: 0 }, by);
  });
}

/** The earliest part may have been shifted: counts all instants from the earliest again. */
function placeAgain(parts: readonly PlacedPart[]): PlacedPart[] {
  const earliest = parts.reduce((least, part) => Math.min(least, part.start), Number.POSITIVE_INFINITY);
  return parts.map((part) => {
    const clock = part.clock.kind === "absolute" ? { ...part.clock, epoch: part.clock.epoch + earliest } : part.clock;
    return shiftPart({ ...part, clock }, -earliest);
  });
}

function shiftPart(part: PlacedPart, by: number): PlacedPart {
  if (by === 0) return part;
  const moved = new Map<Sampling, Sampling>();
  const move = (sampling: Sampling): Sampling => {
    const known = moved.get(sampling) ?? moveSampling(sampling, by);
    moved.set(sampling, known);
    return known;
  };
  return {
    ...part,
    start: part.start + by,
    channels: part.channels.map((channel) => ({ ...channel, sampling: move(channel.sampling) })),
    origins: part.origins.map((origin) => ({ ...origin, sampling: move(origin.sampling) })),
    faults: part.faults.map((fault) => ({ ...fault, from: seconds(fault.from + by), to: seconds(fault.to + by) })),
  };
}

/** Files that are parts of the same log, in groups. Long form keeps an origin a channel and is not joined with others. */
function findLogs(parts: readonly PlacedPart[]): PlacedPart[][] {
  const groups: PlacedPart[][] = [];
  const sorted = [...parts].sort((a, b) => a.start - b.start || a.file.name.localeCompare(b.file.name, "en"));
  for (const part of sorted) {
    const home = groups.find((group) => hasSameColumns(group[0], part) && group.every((other) => isSameLog(other, part)));
    if (home === undefined) groups.push([part]);
    else home.push(part);
  }
  return groups;
}

function hasSameColumns(a: PlacedPart, b: PlacedPart): boolean {
  if (a.origins.length !== 1 || b.origins.length !== 1 || a.channels.length !== b.channels.length) return false;
  return a.channels.every((channel, i) => {
    const other = b.channels[i];
    return channel.heading === other.heading && channel.quantity === other.quantity && channel.role === other.role;
  });
}

function toRecord(
  files: readonly FilePart[],
  parts: readonly PlacedPart[],
  found: { notes: FilePart["notes"]; questions: readonly ImportQuestion[] },
): LogRecord {
  const [first] = parts;
  const zone = parts.map(({ clock }) => (clock.kind === "absolute" ? clock.zone : null)).find((name) => name !== null) ?? null;
  const sum = (key: keyof FilePart["rows"]) => parts.reduce((total, part) => total + part.rows[key], 0);
  return {
    files: files.map(({ file }) => file),
    clock: first.clock.kind === "absolute" ? { ...first.clock, zone } : first.clock,
    duration: seconds(parts.reduce((end, part) => Math.max(end, part.start + part.duration), 0)),
    channels: parts.flatMap((part) => part.channels),
    columns: parts.flatMap((part) => part.columns),
    origins: parts.flatMap((part) => part.origins),
    rows: { accepted: sum("accepted"), rejected: sum("rejected"), duplicate: sum("duplicate"), reordered: sum("reordered") },
    rejects: parts.flatMap((part) => part.rejects).slice(0, 100),
    questions: withoutTwins([...parts.flatMap((part) => part.questions), ...found.questions]),
    notes: [...parts.flatMap((part) => part.notes), ...found.notes],
    faults: parts.flatMap((part) => part.faults).sort((a, b) => a.from - b.from),
  };
}

const withoutTwins = (questions: readonly ImportQuestion[]) =>
  questions.filter((question, i) => questions.findIndex((other) => other.id === question.id) === i);
