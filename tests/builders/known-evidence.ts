import type { Evidence } from "../../analysis/detectors/detector";
import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { PumpState, Segments } from "../../shared/findings/segment";
import type { ChannelQuantity, ChannelRole } from "../../shared/record/channel-role";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord, Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { readSiteFacts } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { seconds } from "../../shared/units/quantity";

export type Columns = { readonly pressure: ArrayLike<number>; readonly flow?: ArrayLike<number>; readonly speed?: ArrayLike<number> };

const QUANTITY: Partial<Record<ChannelRole, ChannelQuantity>> = { pressure: "gaugePressure", flow: "flow", speed: "fraction" };

export const evenSampling = (count: number, step = 1): Sampling => ({ kind: "even", start: seconds(0), step: seconds(step), count });
export const listedSampling = (times: ArrayLike<number>): Sampling => ({ kind: "listed", times: Float64Array.from(times) });

/** A record with the given columns on one clock; pressure in Pa gauge, flow in m3/s, speed as a fraction. */
export function recordOf(columns: Columns, sampling: Sampling = evenSampling(columns.pressure.length)): LogRecord {
  const channels = Object.entries(columns).map(([role, values], index): Channel => {
    const known = role as ChannelRole;
    return {
      heading: role,
      index,
      role: known,
      position: null,
      unitInFile: null,
      quantity: QUANTITY[known] ?? "none",
      sampling,
      values: Float32Array.from(values),
      certainty: 1,
      reason: [],
    };
  });
  const count = columns.pressure.length;
  return {
    files: [],
    clock: { kind: "elapsed" },
    duration: timeAt(sampling, count - 1),
    channels,
    columns: [],
    origins: [],
    rows: { accepted: count, rejected: 0, duplicate: 0, reordered: 0 },
    rejects: [],
    questions: [],
    notes: [],
    faults: [],
  };
}

const notKnown: CannotTell = { id: "no-pump-state", about: "starts", detail: {} };
const noFlow: CannotTell = { id: "no-flow-channel", about: "drift", detail: {} };

/** A pump that ran through the whole record. */
export const alwaysRunning = (record: LogRecord): PumpState => ({
  basis: "speed",
  channel: "speed",
  mode: "always-running",
  runs: [{ from: seconds(0), to: record.duration, complete: false }],
  observed: [{ from: seconds(0), to: record.duration }],
  separation: null,
  certainty: 0.9,
  pumps: [],
});

/** What detectors see: nothing is known of pump and draw unless `segments` says it. */
export function evidenceOf(
  record: LogRecord,
  segments: Partial<Segments> = {},
  site: SiteFacts = readSiteFacts({}, "site"),
  faults: readonly LogFault[] = [],
): Evidence {
  return {
    record,
    faults,
    site,
    segments: { meter: { place: null, from: null, certainty: 0 }, pump: notKnown, draw: noFlow, steady: noFlow, tank: noFlow, ...segments },
  };
}
