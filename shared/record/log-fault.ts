import type { Seconds } from "../units/quantity";
import type { FaultNote } from "../wording/fault-note";

/** What can be wrong with the log itself, in words; the list is complete. */
export const LOG_FAULT_KINDS = [
  "gap",
  "silence",
  "stuck-value",
  "clipped",
  "spike",
  "below-live-zero",
  "above-range",
  "clock-jump",
  "clock-reset",
  "duplicate-times",
  "zone-slip",
  "sensor-swap",
  "restart",
] as const;
export type LogFaultKind = (typeof LOG_FAULT_KINDS)[number];

/** A stretch of the record that detectors leave out, or at least say so. `channel` null: the whole record. */
export type LogFault = {
  readonly kind: LogFaultKind;
  readonly channel: string | null;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly note: FaultNote;
};
