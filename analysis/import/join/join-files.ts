import type { ImportQuestion } from "../../../shared/record/import-question";
import type { LogRecord, Sampling } from "../../../shared/record/log-record";
import { seconds } from "../../../shared/units/quantity";
import type { FilePart } from "../file-part";
import type { ImportChoices } from "../import-log";
import { dateElapsed } from "./date-elapsed";
import { checkClocks } from "./lay-over";
import { moveSampling } from "./move-sampling";
import { alignParts } from "./same-columns";
import { isSameLog, mergeParts, type PlacedPart } from "./same-log";

/**
 * Several files as one record over one clock: parts of one log joined in order of time, different loggers laid over each other. The order of the
 * files given does not matter.
 */
export function joinParts(parts: readonly FilePart[], choices: ImportChoices): LogRecord {
  const { dated, question } = dateElapsed(parts);
  const placed = placeParts(dated);
  const logs = findLogs(placed).map(mergeParts);
  const [first, ...others] = logs.sort((a, b) => b.rows.accepted - a.rows.accepted || a.file.name.localeCompare(b.file.name, "en"));
  const checks = others.map((other) => checkClocks(first, other, choices.answers.clock));
  return toRecord(parts, placeAgain([first, ...others.map((other, i) => shiftPart(other, checks[i].shift))]), {
    notes: checks.flatMap((check) => check.notes),
    questions: [...(question === null ? [] : [question]), ...checks.flatMap((check) => check.question ?? [])],
  });
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

/** Files that are parts of the same log, in groups; the channels of a group stand in one order. */
function findLogs(parts: readonly PlacedPart[]): PlacedPart[][] {
  const groups: PlacedPart[][] = [];
  const sorted = [...parts].sort((a, b) => a.start - b.start || a.file.name.localeCompare(b.file.name, "en"));
  for (const part of sorted) if (!groups.some((group) => takeIn(group, part))) groups.push([part]);
  return groups;
}

/** Puts a part into a group where it belongs. @returns whether it does */
function takeIn(group: PlacedPart[], part: PlacedPart): boolean {
  const pairs = group.map((other) => alignParts(other, part));
  const fits = pairs.every((pair) => pair !== null && isSameLog(...pair));
  if (!fits) return false;
  // the fullest of all gives the order; each of the others was found to fit it or the part
  const fullest = [...group, part].reduce((a, b) => (b.channels.length > a.channels.length ? b : a));
  const all = [...group, part].map((other) => (other === fullest ? other : alignParts(fullest, other)?.[1]));
  if (all.some((other) => other === undefined)) return false;
  group.splice(0, group.length, ...all.flatMap((other) => other ?? []));
  return true;
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
    questions: withoutTwins([...byStart(parts).flatMap((part) => part.questions), ...found.questions]),
    notes: [...parts.flatMap((part) => part.notes), ...found.notes],
    faults: parts.flatMap((part) => part.faults).sort((a, b) => a.from - b.from),
  };
}

/** A question on the start of the log is that of its first part. */
const byStart = (parts: readonly PlacedPart[]) => [...parts].sort((a, b) => a.start - b.start);

const withoutTwins = (questions: readonly ImportQuestion[]) =>
  questions.filter((question, i) => questions.findIndex((other) => other.id === question.id) === i);
