import { seconds } from "../../../shared/units/quantity";
import type { FilePart } from "../file-part";
import { moveSampling } from "./move-sampling";

/** A line that no group could use is one reject. */
const distinct = (rejects: FilePart["rejects"]) => rejects.filter(({ row }, i) => rejects.findIndex((other) => other.row === row) === i);

/** Columns of one file that were read with instants of their own, as one part. At least one group. */
export function combineGroups(groups: readonly FilePart[]): FilePart {
  const [first] = groups;
  const epochs = groups.map(({ clock }) => (clock.kind === "absolute" ? clock.epoch : 0));
  const epoch = epochs.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  const moved = groups.map((group, i) => {
    const by = epochs[i] - epoch;
    const sampling = moveSampling(group.origins[0].sampling, by);
    const same = (channel: FilePart["channels"][number]) => channel.sampling === group.origins[0].sampling;
    return {
      channels: group.channels.map((channel) => ({ ...channel, sampling: same(channel) ? sampling : moveSampling(channel.sampling, by) })),
      origins: group.origins.map((origin) => ({ ...origin, sampling })),
      faults: group.faults.map((fault) => ({
        ...fault,
        channel: fault.channel ?? group.channels[0].heading,
        from: seconds(fault.from + by),
        to: seconds(fault.to + by),
      })),
      end: group.duration + by,
    };
  });
  // A line of the file is one row, however many groups find an instant in it.
  const most = (key: keyof FilePart["rows"]) => groups.reduce((greatest, { rows }) => Math.max(greatest, rows[key]), 0);
  // Lines that only one of the groups rejected are counted too, as far as they are listed.
  const rejects = distinct(groups.flatMap((group) => group.rejects));
  const text = `Each of ${groups.length} groups of columns goes by a time column of its own.`;
  return {
    ...first,
    clock: first.clock.kind === "absolute" ? { ...first.clock, epoch } : first.clock,
    duration: moved.reduce((longest, { end }) => Math.max(longest, end), 0),
    channels: moved.flatMap(({ channels }) => channels),
    origins: moved.flatMap(({ origins }) => origins),
    rows: {
      accepted: most("accepted"),
      rejected: Math.max(most("rejected"), rejects.length),
      duplicate: most("duplicate"),
      reordered: most("reordered"),
    },
    rejects: rejects.slice(0, 100),
    questions: first.questions,
    notes: [{ kind: "own-times", text }, ...first.notes.filter(({ kind }) => kind !== "several-clocks")],
    faults: moved.flatMap(({ faults }) => faults),
  };
}
