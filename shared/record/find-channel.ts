import type { ChannelRole } from "./channel-role";
import type { Channel, LogRecord } from "./log-record";

/** Channels of one role that carry a usable SI quantity, in the order of the files. */
export function channelsOf(record: LogRecord, role: ChannelRole): readonly Channel[] {
  return record.channels.filter((channel) => channel.role === role && (role !== "pressure" || isPressure(channel)));
}

const isPressure = (channel: Channel) => channel.quantity === "gaugePressure" || channel.quantity === "absolutePressure";

/** The channel a finding rests on when there are several of one role: the first. Null where there is none. */
export const mainChannel = (record: LogRecord, role: ChannelRole): Channel | null => channelsOf(record, role)[0] ?? null;
