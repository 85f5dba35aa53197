import type { ChannelRole } from "./channel-role";
import { channelsOf } from "./find-channel";
import type { LogRecord } from "./log-record";

/** Greatest value over all channels of a role, SI; null where there is none. */
export function highestOf(record: LogRecord, role: ChannelRole): number | null {
  let highest = Number.NEGATIVE_INFINITY;
  for (const { values } of channelsOf(record, role)) for (let i = 0; i < values.length; i++) if (values[i] > highest) highest = values[i];
  return Number.isFinite(highest) ? highest : null;
}
