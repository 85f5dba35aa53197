import type { Clock } from "../../../shared/record/clock";
import type { ImportQuestion } from "../../../shared/record/import-question";
import type { LogFault } from "../../../shared/record/log-fault";
import type { ReadingNote } from "../../../shared/record/log-record";
import type { ImportChoices } from "../import-log";
import type { ClockReading, SettledClock } from "./clock-reading";
import { orderRows } from "./order-rows";
import { civilToUnix, zoneOffsets } from "./zone-offsets";

/** What the stations on the way write down. */
export type ClockLedger = {
  readonly rejected: { row: number; why: string }[];
  readonly faults: LogFault[];
  readonly questions: ImportQuestion[];
  readonly notes: ReadingNote[];
};

/**
 * Puts the rows of one file in order of time and says what was wrong with its clock. O(n) for rows in order, O(n log n) at worst.
 * @param raw what `reading.parse` or its pattern gave for each row, s, NaN where not understood, shape [n]; not changed
 */
export function settleClock(raw: Float64Array, reading: ClockReading, _choices: ImportChoices): SettledClock {
  const ledger: ClockLedger = { rejected: [], faults: [], questions: [...reading.questions], notes: [...reading.notes] };
  const times = reading.kind === "counted" ? countedTimes(raw.length, reading.interval ?? 1) : raw.slice();
  rejectUnread(times, ledger);
  if (reading.rollsOverMidnight) rollOver(times, 86400);
  if (reading.start !== null && reading.kind !== "unix") for (let i = 0; i < times.length; i++) times[i] += reading.start;
  const absolute = reading.kind === "civil" || reading.kind === "unix" || reading.start !== null;
  if (absolute && reading.zone !== null && reading.kind !== "unix") toUnix(times, reading.zone);
  const rows = orderRows(times);
  const first = rows.times.length === 0 ? 0 : rows.times[0];
  const clock: Clock = absolute ? { kind: "absolute", epoch: first, zone: reading.zone } : { kind: "elapsed" };
  return { clock, ...rows, times: rows.times.map((t) => t - first), ...ledger };
}

function countedTimes(n: number, interval: number): Float64Array {
  const times = new Float64Array(n);
  for (let i = 0; i < n; i++) times[i] = i * interval;
  return times;
}

function rejectUnread(times: Float64Array, ledger: ClockLedger): void {
  for (let row = 0; row < times.length; row++)
    if (Number.isNaN(times[row])) ledger.rejected.push({ row, why: "the time is not understood" });
}

function rollOver(times: Float64Array, day: number): void {
  let [last, added] = [Number.NaN, 0];
  for (let i = 0; i < times.length; i++) {
    if (Number.isNaN(times[i])) continue;
    if (times[i] < last - day / 2) added += day;
    last = times[i];
    times[i] += added;
  }
}

function toUnix(times: Float64Array, zone: string): void {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const t of times) {
    if (t < low) low = t;
    if (t > high) high = t;
  }
  if (low <= high) civilToUnix(times, zoneOffsets(zone, low, high));
}
