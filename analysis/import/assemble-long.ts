import type { Channel, RowOrigin, Sampling } from "../../shared/record/log-record";
import { inOrder, type KnownFile, makeChannel, partOf } from "./assemble-wide";
import type { LongChannel, LongStore } from "./body/long-store";
import type { RowLog } from "./body/row-log";
import type { Samples } from "./body/row-store";
import { asSample } from "./body/text-rows";
import type { SettledClock } from "./clock/clock-reading";
import { settleClock } from "./clock/settle-clock";
import type { ColumnReading, ColumnText } from "./columns/column-reading";
import { readColumns } from "./columns/read-columns";
import type { FilePart } from "./file-part";
import { findGaps, findSampling } from "./find-sampling";
import { moveSampling } from "./join/move-sampling";

const SAMPLED = 2000;

/** Rows in long form: each channel has its own instants, those with the same share one sampling. */
export function assembleLong(known: KnownFile, store: LongStore, log: RowLog): FilePart {
  const { file, plan, choices, questions } = known;
  const found = [...store.channels.values()];
  const readings = readColumns(found.map(textOf), { ...plan.context, decimal: ".", thousands: null }, choices);
  const settled = found.map((channel) =>
    settleClock(channel.store.times.all(), plan.clock, choices, { alike: (row, other) => channel.store.alike(row, other), sections: [] }),
  );
  const epochs = settled.map(({ clock }) => (clock.kind === "absolute" ? clock.epoch : 0));
  const epoch = epochs.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  const samplings = shareSamplings(settled, epochs, epoch);
  const sum = (count: (part: SettledClock) => number) => settled.reduce((total, part) => total + count(part), 0);
  const rejects = settled.flatMap((part, i) =>
    part.rejected.map(({ row, why }) => ({ file: file.name, row: found[i].store.lines.at(row), why, text: null })),
  );
  const [{ clock }] = settled;
  return {
    ...partOf(known, log),
    clock: clock.kind === "absolute" ? { ...clock, epoch } : clock,
    dateOrder: settled[0].dateOrder,
    duration: settled.reduce((longest, { times }, i) => Math.max(longest, (times[times.length - 1] ?? 0) + epochs[i] - epoch), 0),
    channels: found.map((channel, i) => channelOf(channel, readings[i], settled[i], samplings[i], plan.long?.value ?? 0)),
    columns: plan.columns.map(({ heading, index, use }) => ({ heading, index, role: use === "time" ? "time" : "other", unit: null })),
    origins: found.map(
      (channel, i): RowOrigin => ({ file: file.name, sampling: samplings[i], lines: channel.store.lines.lines(settled[i].order) }),
    ),
    rows: {
      accepted: sum(({ times }) => times.length),
      rejected: log.rejected + rejects.length,
      duplicate: sum((part) => part.duplicates),
      reordered: sum((part) => part.reordered),
    },
    rejects: [...log.rejects, ...rejects].sort((a, b) => a.row - b.row).slice(0, 100),
    questions: [...questions, ...readings.flatMap((reading) => reading.questions), ...settled[0].questions],
    notes: [
      { kind: "long-form", channels: found.length, by: plan.columns[plan.long?.key ?? 0].heading },
      ...settled[0].notes,
      ...plan.notes,
      ...log.notes(),
    ],
    faults: settled.flatMap((part, i) =>
      samplings.indexOf(samplings[i]) === i ? [...part.faults, ...gapsOf(part, found[i].key, samplings)] : [],
    ),
  };
}

/** Gaps of one channel's own instants; of the whole record where all channels share them. */
function gapsOf({ times }: SettledClock, key: string, samplings: readonly Sampling[]): FilePart["faults"] {
  const shared = samplings.every((sampling) => sampling === samplings[0]);
  return findGaps(times, { kind: "sampled" }).map((gap) => ({ ...gap, channel: shared ? null : key }));
}

const textOf = ({ key, unit, store }: LongChannel, index: number): ColumnText => {
  const stride = Math.max(1, Math.floor(store.count / SAMPLED));
  const picked = Array.from({ length: Math.ceil(store.count / stride) }, (_, i) => store.values[0][i * stride]);
  return { index, heading: key, unitsCell: unit, sample: picked.map((value) => (Number.isNaN(value) ? "" : String(value))) };
};

function channelOf(
  { key, store }: LongChannel,
  reading: ColumnReading,
  { order }: SettledClock,
  sampling: Sampling,
  index: number,
): Channel {
  const values = inOrder(store.values[0], store.count, order);
  return makeChannel(key, index, reading, sampling, toSI(values, reading));
}

function toSI(values: Samples, { factor, offset, sentinels, role, counter }: ColumnReading): Samples {
  const wide = role === "volume" || counter !== null;
  const si = wide ? new Float64Array(values.length) : new Float32Array(values.length);
  for (let i = 0; i < values.length; i++) si[i] = sentinels.includes(values[i]) ? Number.NaN : asSample(values[i] * factor + offset);
  return si;
}

/** Samplings counted from one epoch; channels with the same instants get the same object. */
function shareSamplings(settled: readonly SettledClock[], epochs: readonly number[], epoch: number): Sampling[] {
  const made: { readonly sampling: Sampling; readonly times: Float64Array; readonly at: number }[] = [];
  return settled.map(({ times }, i) => {
    const twin = made.find((other) => other.at === epochs[i] && sameTimes(other.times, times));
    if (twin !== undefined) return twin.sampling;
    const sampling = moveSampling(findSampling(times, null), epochs[i] - epoch);
    made.push({ sampling, times, at: epochs[i] });
    return sampling;
  });
}

function sameTimes(a: Float64Array, b: Float64Array): boolean {
  return a.length === b.length && a.every((t, i) => t === b[i]);
}
