import type { ChannelQuantity, ChannelRole } from "../../shared/record/channel-role";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord, Sampling } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";
import { seconds } from "../../shared/units/quantity";

const QUANTITY: Readonly<Record<ChannelRole, ChannelQuantity>> = {
  time: "none",
  pressure: "gaugePressure",
  flow: "flow",
  speed: "fraction",
  current: "electricCurrent",
  power: "power",
  running: "state",
  temperature: "temperature",
  level: "length",
  volume: "volume",
  other: "none",
};

/** An even sampling from second 0. */
export const every = (step: number, count: number): Sampling => ({ kind: "even", start: seconds(0), step: seconds(step), count });
/** Samples at listed instants, s. */
export const at = (times: readonly number[]): Sampling => ({ kind: "listed", times: Float64Array.from(times) });
/** A log on change that ends at `until`, s. */
export const onChange = (times: readonly number[], until: number): Sampling => ({
  kind: "on-change",
  times: Float64Array.from(times),
  until: seconds(until),
});

/** A channel of a role with SI values; its heading is the role unless another is given. */
export function channel(role: ChannelRole, sampling: Sampling, values: ArrayLike<number>, heading: string = role): Channel {
  return {
    heading,
    index: 1,
    role,
    position: null,
    unitInFile: null,
    quantity: QUANTITY[role],
    sampling,
    values: Float64Array.from(values),
    certainty: 1,
    reason: [],
  };
}

/** A record of channels, with nothing remarkable about its files. */
export function recordOf(channels: readonly Channel[], faults: readonly LogFault[] = []): LogRecord {
  const ends = channels.map(({ sampling: s }) => (s.kind === "on-change" ? s.until : timeAt(s, sampleCount(s) - 1)));
  return {
    files: [],
    clock: { kind: "elapsed" },
    duration: seconds(Math.max(0, ...ends)),
    channels,
    columns: [],
    origins: [],
    rows: { accepted: 0, rejected: 0, duplicate: 0, reordered: 0 },
    rejects: [],
    questions: [],
    notes: [],
    faults,
  };
}

/** "..##.#" drawn as 0, 0, 1, 1, 0, 1; a blank is a missing sample. */
export const drawn = (picture: string): number[] => [...picture].map((c) => (c === "#" ? 1 : c === "." ? 0 : Number.NaN));
