import type { Channel, RowOrigin } from "../../../shared/record/log-record";
import { timesOf } from "../../../shared/record/sampling";
import { seconds } from "../../../shared/units/quantity";
import { orderRows } from "../clock/order-rows";
import type { FilePart } from "../file-part";
import { findSampling, medianInterval } from "../find-sampling";
import { heldAt } from "../row-rhythm";
import { isSameRounded, type Pair } from "./same-rounded";

/** A part of the record with its instants counted from the record's epoch. */
export type PlacedPart = Omit<FilePart, "layout"> & { readonly start: number };

/** Rows at the same instant must agree in so many cases for two files to be one log. */
const AGREEING_SHARE = 0.8;

/**
 * Whether two files with the same headings are parts of one log: they lie apart in time, or where they overlap their rows stand at the same instants
 * with the same values, or with those of the other rounded. Two loggers set alike have the same headings too, but not the same values.
 */
export function isSameLog(a: PlacedPart, b: PlacedPart): boolean {
  const from = Math.max(a.start, b.start);
  const to = Math.min(a.start + a.duration, b.start + b.duration);
  if (from > to) return true;
  const [ta, tb] = [timesOf(a.origins[0].sampling), timesOf(b.origins[0].sampling)];
  const [rowsA, rowsB] = [countWithin(ta, from, to), countWithin(tb, from, to)];
  const pairs: Pair[] = [];
  let i = 0;
  for (let k = 0; k < tb.length; k++) {
    while (i < ta.length && ta[i] < tb[k] - 1e-6) i++;
    if (i < ta.length && Math.abs(ta[i] - tb[k]) <= 1e-6) pairs.push([i, k]);
  }
  const enough = AGREEING_SHARE * Math.min(rowsA, rowsB);
  if (pairs.length < enough) return false;
  return pairs.filter(([i, k]) => sameValues(a, b, i, k)).length >= enough || isSameRounded(a, b, pairs);
}

const countWithin = (times: Float64Array, from: number, to: number) =>
  times.reduce((count, t) => count + (t >= from && t <= to ? 1 : 0), 0);

function sameValues(a: PlacedPart, b: PlacedPart, i: number, k: number): boolean {
  return a.channels.every((channel, c) => {
    const other = b.channels[c];
    if (channel.sampling !== a.origins[0].sampling || other.sampling !== b.origins[0].sampling) return true;
    return Object.is(channel.values[i], other.values[k]) || channel.values[i] === other.values[k];
  });
}

/** Parts of one log as one, in order of time; a row at an instant that an earlier part has is a duplicate. At least one part. */
export function mergeParts(parts: readonly PlacedPart[]): PlacedPart {
  if (parts.length === 1) return parts[0];
  const sorted = [...parts].sort((a, b) => a.start - b.start);
  const [first] = sorted;
  const rows = joinTimes(sorted.map((part) => timesOf(part.origins[0].sampling)));
  const onChange = sorted.some((part) => part.origins[0].sampling.kind === "on-change");
  const sampling = findSampling(rows.times, onChange ? { kind: "on-change", heartbeat: null } : null);
  const channels = first.channels.map((channel, c): Channel => {
    const twins = sorted.map((part) => part.channels[c]);
    const usual = twins.every((twin, p) => twin.sampling === sorted[p].origins[0].sampling);
    if (usual) return { ...channel, sampling, values: joinValues(twins, rows.order) };
    const own = joinTimes(twins.map((twin) => timesOf(twin.sampling)));
    const holds = twins.some((twin) => twin.sampling.kind === "on-change");
    const ownSampling = holds ? heldAt(own.times, rows.times) : findSampling(own.times, null);
    return { ...channel, sampling: ownSampling, values: joinValues(twins, own.order) };
  });
  const sum = (key: keyof FilePart["rows"]) => sorted.reduce((total, part) => total + part.rows[key], 0);
  return {
    ...first,
    duration: rows.times[rows.times.length - 1] - first.start,
    channels,
    origins: keptOrigins(sorted, rows.order),
    rows: {
      accepted: rows.times.length,
      rejected: sum("rejected"),
      duplicate: sum("duplicate") + rows.duplicates,
      reordered: sum("reordered"),
    },
    rejects: sorted.flatMap((part) => part.rejects),
    questions: sorted.flatMap((part) => part.questions),
    notes: [...sorted.flatMap((part) => part.notes), joinNote(sorted, rows.duplicates)],
    faults: [...sorted.flatMap((part) => part.faults), ...(onChange ? [] : seams(sorted))],
  };
}

function joinTimes(times: readonly Float64Array[]): { times: Float64Array; order: Uint32Array | null; duplicates: number } {
  const all = new Float64Array(times.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of times) {
    all.set(part, at);
    at += part.length;
  }
  return orderRows(all);
}

function joinValues(channels: readonly Channel[], order: Uint32Array | null): Channel["values"] {
  const wide = channels.some(({ values }) => values instanceof Float64Array);
  const count = channels.reduce((sum, { values }) => sum + values.length, 0);
  const all = wide ? new Float64Array(count) : new Float32Array(count);
  let at = 0;
  for (const { values } of channels) {
    all.set(values, at);
    at += values.length;
  }
  if (order === null) return all;
  const kept = wide ? new Float64Array(order.length) : new Float32Array(order.length);
  for (let i = 0; i < order.length; i++) kept[i] = all[order[i]];
  return kept;
}

/** Each file's own rows, without those that another file had before. */
function keptOrigins(parts: readonly PlacedPart[], order: Uint32Array | null): RowOrigin[] {
  if (order === null) return parts.flatMap((part) => part.origins);
  const counts = parts.map((part) => timesOf(part.origins[0].sampling).length);
  const kept = parts.map((): number[] => []);
  for (const row of order) {
    let part = 0;
    let at = row;
    while (at >= counts[part]) at -= counts[part++];
    kept[part].push(at);
  }
  return parts.map((part, p) => {
    const [{ file, sampling, lines }] = part.origins;
    const times = timesOf(sampling);
    const own = kept[p].sort((a, b) => a - b);
    return {
      file,
      sampling: findSampling(
        Float64Array.from(own, (row) => times[row]),
        null,
      ),
      lines: Uint32Array.from(own, (row) => (lines instanceof Uint32Array ? lines[row] : lines.first + row * lines.step)),
    };
  });
}

function joinNote(parts: readonly PlacedPart[], duplicates: number): FilePart["notes"][number] {
  return { kind: "parts-joined", files: parts.map(({ file }) => file.name), twice: duplicates };
}

/** Silences between one part and the next. */
function seams(parts: readonly PlacedPart[]): FilePart["faults"] {
  return parts.slice(1).flatMap((part, i) => {
    const before = parts[i];
    const end = before.start + before.duration;
    const usual = Math.max(...[before, part].map((side) => medianInterval(timesOf(side.origins[0].sampling)) || 0));
    const silence = part.start - end;
    if (!(silence > 3.5 * usual)) return [];
    const [apart, from, after] = [Number(silence.toPrecision(6)), before.file.name, part.file.name];
    const note = { kind: "no-rows-between", silence: apart, before: from, after } as const;
    return [{ kind: "gap" as const, channel: null, from: seconds(end), to: seconds(part.start), note }];
  });
}
