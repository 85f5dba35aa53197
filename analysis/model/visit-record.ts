import type { ChannelQuantity, ChannelRole } from "../../shared/record/channel-role";
import type { Channel, LogRecord, Sampling } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import type { SimulatedVisit } from "./simulate-site";
import type { LoggedChannel } from "./site-model";

type ChannelKind = {
  readonly heading: string;
  readonly role: ChannelRole;
  readonly quantity: ChannelQuantity;
  readonly position: string | null;
};

/** How each logged channel is called in a record. */
export const CHANNEL_KINDS: Readonly<Record<LoggedChannel, ChannelKind>> = {
  pressure: { heading: "Pressure", role: "pressure", quantity: "gaugePressure", position: null },
  "pressure-at-pump": { heading: "Pump pressure", role: "pressure", quantity: "gaugePressure", position: "pump" },
  flow: { heading: "Flow", role: "flow", quantity: "flow", position: null },
  speed: { heading: "Speed", role: "speed", quantity: "fraction", position: null },
  running: { heading: "Running", role: "running", quantity: "state", position: null },
  current: { heading: "Current", role: "current", quantity: "electricCurrent", position: null },
  power: { heading: "Power", role: "power", quantity: "power", position: null },
  temperature: { heading: "Temperature", role: "temperature", quantity: "temperature", position: null },
};

/** A simulated visit as the importer would hand it over. */
export function visitRecord(visit: SimulatedVisit, name = "simulated"): LogRecord {
  const { samples, site } = visit;
  const first = samples.count > 0 ? samples.times[0] : 0;
  const duration = samples.count > 0 ? samples.times[samples.count - 1] - first : 0;
  const sampling: Sampling = samples.even
    ? { kind: "even", start: seconds(0), step: seconds(site.logger.interval), count: samples.count }
    : { kind: "listed", times: samples.times.map((t) => t - first) };
  const channels = [...samples.columns].map(([channel, values], i): Channel => {
    const kind = CHANNEL_KINDS[channel];
    return { ...kind, index: i + 1, unitInFile: null, sampling, values, certainty: 1, reason: [{ kind: "simulated" }] };
  });
  const { clock } = site.logger;
  return {
    files: [{ name, bytes: 0, sha256: null }],
    clock: clock.kind === "absolute" ? { ...clock, epoch: clock.epoch + first } : clock,
    duration: seconds(duration),
    channels,
    columns: [
      { heading: "Time", index: 0, role: "time", unit: null },
      ...channels.map(({ heading, index, role }) => ({ heading, index, role, unit: null })),
    ],
    origins: [{ file: name, sampling, lines: { first: 2, step: 1 } }],
    rows: { accepted: samples.count, rejected: 0, duplicate: 0, reordered: 0 },
    rejects: [],
    questions: [],
    notes: [],
    faults: [],
  };
}
