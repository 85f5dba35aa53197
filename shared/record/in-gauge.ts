import type { AbsolutePascal } from "../units/pressure";
import type { Channel, LogRecord } from "./log-record";

/** The same record with every absolute pressure less the air pressure, so that all detectors see gauge. */
export function inGauge(record: LogRecord, atmosphere: AbsolutePascal): LogRecord {
  if (!record.channels.some((channel) => channel.quantity === "absolutePressure")) return record;
  return {
    ...record,
    channels: record.channels.map((channel) => (channel.quantity === "absolutePressure" ? toGaugeChannel(channel, atmosphere) : channel)),
  };
}

const toGaugeChannel = (channel: Channel, atmosphere: AbsolutePascal): Channel => ({
  ...channel,
  quantity: "gaugePressure",
  values: channel.values.map((value) => value - atmosphere),
});
