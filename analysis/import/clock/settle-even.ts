import type { Clock } from "../../../shared/record/clock";
import type { Sampling } from "../../../shared/record/log-record";
import { seconds } from "../../../shared/units/quantity";
import type { ClockReading, SettledClock } from "./clock-reading";
import { zoneOffsets } from "./zone-offsets";

/** A clock whose rows all stand evenly and rise, without a look at each. */
export type EvenClock = Omit<SettledClock, "times"> & { readonly sampling: Extract<Sampling, { kind: "even" }> };

/** An hour of a twelve-hour clock that does not say which half shows by its falling back; a span of years by its leap: an even clock has neither. */
const LONGEST_STEP = 43200;

/**
 * What `settleClock` gives for rows of one step throughout, in constant time. Null where the clock wants a look at its rows: an order of dates that is
 * open, a zone that changes its offset within the log, times of day that roll over.
 * @param even first instant and step as `reading.parse` gives them, s     @param count rows, at least two
 */
export function settleEven(
  even: { readonly first: number; readonly step: number },
  count: number,
  reading: ClockReading,
): EvenClock | null {
  const { first, step } = even;
  if (
    reading.snap !== null ||
    reading.rollsOverMidnight ||
    reading.datesOnce === true ||
    reading.stampsOnce === true ||
    reading.rollsOverYear === true ||
    reading.orders.length > 1
  )
    return null;
  if (!Number.isInteger(first) || !Number.isInteger(step) || step > LONGEST_STEP) return null;
  const epoch = epochOf(first, first + (count - 1) * step, reading);
  if (epoch === null) return null;
  const clock: Clock = epoch === "elapsed" ? { kind: "elapsed" } : { kind: "absolute", epoch, zone: reading.zone };
  return {
    clock,
    sampling: { kind: "even", start: seconds(0), step: seconds(step), count },
    order: null,
    rejected: [],
    dateOrder: reading.provenOrder ?? null,
    duplicates: 0,
    reordered: 0,
    faults: [],
    questions: reading.questions,
    notes: reading.notes,
  };
}

/** Unix seconds of the first row, "elapsed" where no date is known; null where one shift does not serve all rows. */
function epochOf(first: number, last: number, { kind, zone, start }: ClockReading): number | "elapsed" | null {
  if (kind === "unix") return first;
  if (kind === "elapsed" || kind === "counted") return start === null ? "elapsed" : zone === null ? start + first : null;
  if (zone === null) return first;
  // a day to either side, so that no change stands near enough to touch a row
  const { offsets } = zoneOffsets(zone, Math.max(first, -2e9) - 86400, Math.min(last, 8e9) + 86400);
  return offsets.length === 1 ? first - offsets[0] : null;
}
