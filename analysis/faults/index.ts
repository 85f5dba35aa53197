import { attempt, type OnFailure, raise } from "../../shared/findings/failure";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import { findBelowLiveZero } from "./below-live-zero";
import { findGaps } from "./gap";
import { findSensorSwaps } from "./sensor-swap";
import { findSpikes } from "./spike";
import { findStuckValues } from "./stuck-value";
import { findZoneSlips } from "./zone-slip";

/** What can be wrong with a log, one file each, in the order of the report. */
export const FAULT_FINDERS = {
  gap: findGaps,
  "zone-slip": findZoneSlips,
  "stuck-value": findStuckValues,
  spike: findSpikes,
  "sensor-swap": findSensorSwaps,
  "below-live-zero": findBelowLiveZero,
};

/**
 * What is wrong with the log itself: what the reading noticed, and what the values show. In order of time.
 * Detectors leave these stretches out and say so. A kind that cannot be looked for is told, and the others are.
 */
export function findFaults(record: LogRecord, onFailure: OnFailure = raise): LogFault[] {
  const found = Object.entries(FAULT_FINDERS)
    .flatMap(([kind, find]) => attempt<LogFault[]>("fault", kind, onFailure, () => find(record), []))
    .filter((fault) => !record.faults.some((known) => sameFault(known, fault)));
  return [...record.faults, ...found].sort((a, b) => a.from - b.from);
}

const sameFault = (known: LogFault, found: LogFault) =>
  known.kind === found.kind &&
  (known.channel === null || known.channel === found.channel) &&
  known.from <= found.to &&
  found.from <= known.to;
