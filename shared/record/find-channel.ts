import type { ChannelRole } from "./channel-role";
import type { Channel, LogRecord } from "./log-record";

/** Channels of one role that carry a usable SI quantity, in the order of the files. */
export function channelsOf(record: LogRecord, role: ChannelRole): readonly Channel[] {
  return record.channels.filter((channel) => channel.role === role && (role !== "pressure" || isPressure(channel)));
}

const isPressure = (channel: Channel) => channel.quantity === "gaugePressure" || channel.quantity === "absolutePressure";

/** The channel a finding rests on when there are several of one role: the first, but a pump's suction only where nothing else is. Null where there is none. */
export function mainChannel(record: LogRecord, role: ChannelRole): Channel | null {
  const all = channelsOf(record, role);
  return all.find(({ position }) => position !== "suction") ?? all[0] ?? null;
}
