import { seconds } from "../../../shared/units/quantity";
import type { ReadingNote } from "../../../shared/wording/reading-note";
import type { FilePart } from "../file-part";
import { moveSampling } from "./move-sampling";

/** The first of those with the same key, in their order. */
function distinctBy<Item>(items: readonly Item[], keyOf: (item: Item) => string | number): Item[] {
  const seen = new Map<string | number, Item>();
  for (const item of items) if (!seen.has(keyOf(item))) seen.set(keyOf(item), item);
  return [...seen.values()];
}

/**
 * Groups of one file that were read with instants of their own, as one part. At least one group.
 * @param rows "shared": every group looked at every line; "apart": each line belongs to one group
 */
export function combineGroups(groups: readonly FilePart[], note: ReadingNote, rows: "shared" | "apart"): FilePart {
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
  // A shared line of the file is one row, however many groups find an instant in it.
  const most = (key: keyof FilePart["rows"]) => groups.reduce((greatest, { rows }) => Math.max(greatest, rows[key]), 0);
  // Lines that only one of the groups rejected are counted too, as far as they are listed.
  const rejects = distinctBy(
    groups.flatMap((group) => group.rejects),
    ({ row }) => row,
  );
  const notes = distinctBy(
    groups.flatMap((group) => group.notes),
    (note) => JSON.stringify(note),
  );
  const sum = (key: keyof FilePart["rows"]) => groups.reduce((total, part) => total + part.rows[key], 0);
  const tally = rows === "apart" ? sum : most;
  return {
    ...first,
    clock: first.clock.kind === "absolute" ? { ...first.clock, epoch } : first.clock,
    duration: moved.reduce((longest, { end }) => Math.max(longest, end), 0),
    channels: moved.flatMap(({ channels }) => channels),
    origins: moved.flatMap(({ origins }) => origins),
    rows: {
      accepted: tally("accepted"),
      rejected: Math.max(most("rejected"), rejects.length),
      duplicate: tally("duplicate"),
      reordered: tally("reordered"),
    },
    rejects: rejects.slice(0, 100),
    questions: distinctBy(
      groups.flatMap(({ questions }) => questions),
      ({ id }) => id,
    ),
    notes: [note, ...notes.filter(({ kind }) => kind !== "several-clocks")],
    faults: moved.flatMap(({ faults }) => faults),
  };
}
