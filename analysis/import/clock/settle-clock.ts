import type { Clock } from "../../../shared/record/clock";
import { seconds } from "../../../shared/units/quantity";
import type { ImportChoices } from "../import-log";
import { carryStamps } from "./carry-stamps";
import { type ClockAnswers, readClockAnswers } from "./clock-hints";
import type { ClockLedger } from "./clock-ledger";
import type { ClockReading, SettledClock } from "./clock-reading";
import { mendResets } from "./clock-resets";
import { type Alike, followSetBack } from "./clock-set-back";
import { spreadCoarseStamps } from "./coarse-stamps";
import { type DatedSection, dateSections } from "./dated-sections";
import { followRestarts } from "./elapsed-restarts";
import { orderRows } from "./order-rows";
import { risesEvenly } from "./rises-evenly";
import { settleDateOrder } from "./settle-date-order";
import { snapToGrid } from "./snap-to-grid";
import { followStillClock } from "./still-clock";
import { followStuckDate, followYears } from "./stuck-date";
import { markHalves } from "./unmarked-halves";
import { followSummerTime } from "./unnamed-summer-time";
import { civilToUnix, zoneOffsets } from "./zone-offsets";

/** What is known of the rows beside their times. */
export type RowFacts = {
  /** Whether two rows carry the same values: rows of one instant are the same row only then. */
  readonly alike: Alike;
  /** Dates that stand between the rows. */
  readonly sections: readonly DatedSection[];
};

/**
 * Puts the rows of one file in order of time and says what was wrong with its clock. O(n) for rows in order, O(n log n) at worst.
 * Rules: newest-first files are turned round; a row of an instant that an earlier row has is a duplicate and left out; rows out of order are
 * sorted; a clock that fell back to its factory date or leapt years ahead is mended by the sampling or its rows are rejected.
 * @param raw what `reading.parse` or its pattern gave for each row, s, NaN where not understood, shape [n]; not changed     @param alike whether two of these rows carry the same values: rows of one instant are the same row only then
 */
export function settleClock(
  raw: Float64Array,
  reading: ClockReading,
  choices: ImportChoices,
  rows: RowFacts = { alike: () => true, sections: [] },
): SettledClock {
  const answers = readClockAnswers(choices);
  const ledger: ClockLedger = { rejected: [], faults: [], questions: [...reading.questions], notes: [...reading.notes] };
  const times = reading.kind === "counted" ? countedTimes(raw.length, reading.interval ?? 1) : raw.slice();
  if (reading.datesOnce === true) carryDates(times);
  if (reading.stampsOnce === true) carryStamps(times, ledger);
  if (!risesEvenly(times)) rejectUnread(times, ledger);
  const dateOrder = settleDateOrder(times, reading, ledger);
  if (reading.rollsOverYear === true) followYears(times);
  if (reading.snap !== null) snapToGrid(times, reading.snap);
  const turned = !risesEvenly(times) && isNewestFirst(times, reading.rollsOverMidnight);
  if (turned) {
    times.reverse();
    for (const reject of ledger.rejected) reject.row = times.length - 1 - reject.row;
    ledger.notes.push({ kind: "newest-first" });
  }
  if (reading.kind === "civil" && !risesEvenly(times)) {
    markHalves(times, ledger);
    followStuckDate(times, ledger);
  }
  const shown = times.find((t) => !Number.isNaN(t)) ?? 0;
  const absolute = toInstants(times, reading, turned ? [] : rows.sections, ledger);
  const east = absolute && reading.kind === "civil" ? shown - (times.find((t) => !Number.isNaN(t)) ?? 0) : 0;
  if (!risesEvenly(times)) mendLeaps(times, reading, absolute ? east : null, answers, ledger, inFile(rows.alike, times.length, turned));
  return { ...finish(times, reading, absolute, turned, ledger), dateOrder };
}

/** Where the clock leapt, fell back, was put forward, or is too coarse: in place. East: s of the logger's clock ahead of UTC, null without instants. */
function mendLeaps(
  times: Float64Array,
  reading: ClockReading,
  east: number | null,
  answers: ClockAnswers,
  ledger: ClockLedger,
  alike: Alike,
): void {
  if (east !== null) {
    mendResets(times, east, answers.clock, ledger);
    if (reading.zone === null && reading.kind !== "unix") followSummerTime(times, ledger);
  } else followRestarts(times, ledger);
  followStillClock(times, alike, ledger);
  spreadCoarseStamps(times, answers.interval ?? reading.interval, ledger);
  followSetBack(times, alike, answers.clock, ledger);
}

/** Rows as the file counts them, of rows that may have been turned round. */
const inFile = (alike: Alike, count: number, turned: boolean): Alike =>
  turned ? (row, other) => alike(count - 1 - row, count - 1 - other) : alike;

/** Sorted, counted from the first instant, rows named as the file has them. */
function finish(
  times: Float64Array,
  reading: ClockReading,
  absolute: boolean,
  turned: boolean,
  ledger: ClockLedger,
): Omit<SettledClock, "dateOrder"> {
  const rows = orderRows(times);
  const first = rows.times.length === 0 ? 0 : rows.times[0];
  const clock: Clock = absolute ? { kind: "absolute", epoch: first, zone: reading.zone } : { kind: "elapsed" };
  if (rows.duplicates > 0) ledger.notes.push({ kind: "duplicate-times", rows: rows.duplicates });
  if (rows.reordered > 0) ledger.notes.push({ kind: "out-of-order", rows: rows.reordered });
  const last = times.length - 1;
  const inFile = (row: number) => (turned ? last - row : row);
  const order = rows.order ?? (turned ? Uint32Array.from(times, (_, i) => i) : null);
  return {
    clock,
    times: countedFrom(rows.times, first),
    order: turned ? (order?.map(inFile) ?? null) : order,
    rejected: ledger.rejected.map(({ row, why }) => ({ row: inFile(row), why })).sort((a, b) => a.row - b.row),
    duplicates: rows.duplicates,
    reordered: rows.reordered,
    faults: ledger.faults.map((f) => ({
      ...f,
      channel: null,
      from: seconds(Math.max(0, f.from - first)),
      to: seconds(Math.max(0, f.to - first)),
    })),
    questions: ledger.questions,
    notes: ledger.notes,
  };
}

function countedFrom(instants: Float64Array, first: number): Float64Array {
  const times = new Float64Array(instants.length);
  for (let i = 0; i < times.length; i++) times[i] = instants[i] - first;
  return times;
}

function countedTimes(n: number, interval: number): Float64Array {
  const times = new Float64Array(n);
  for (let i = 0; i < n; i++) times[i] = i * interval;
  return times;
}

function rejectUnread(times: Float64Array, ledger: ClockLedger): void {
  for (let row = 0; row < times.length; row++)
    if (Number.isNaN(times[row])) ledger.rejected.push({ row, why: { kind: "time-not-understood" } });
}

/** More steps down than up; a time of day that climbs back over midnight steps up once a day only. */
function isNewestFirst(times: Float64Array, wraps: boolean): boolean {
  let [up, down] = [0, 0];
  let last = Number.NaN;
  for (const t of times) {
    if (Number.isNaN(t)) continue;
    const step = wraps && Math.abs(t - last) > 43200 ? last - t : t - last;
    if (step > 0) up++;
    else if (step < 0) down++;
    last = t;
  }
  return down > up;
}

/** From what the cells say to instants: Unix seconds for an absolute clock, else seconds from the start of counting. @returns whether absolute */
function toInstants(times: Float64Array, reading: ClockReading, sections: readonly DatedSection[], ledger: ClockLedger): boolean {
  const { kind, start, zone } = reading;
  if (kind === "unix") return true;
  const dated = reading.rollsOverMidnight && start !== null && sections.length > 0;
  if (dated) dateSections(times, start, sections);
  else if (reading.rollsOverMidnight) rollOver(times);
  if (kind === "civil" || (reading.rollsOverMidnight && start !== null)) {
    if (kind !== "civil" && !dated) for (let i = 0; i < times.length; i++) times[i] += start ?? 0;
    if (zone !== null) civilInPlace(times, zone, ledger);
    return true;
  }
  if (start === null) return false;
  // the start alone is a civil time: what is counted from it knows no summer time
  const begin = Float64Array.of(start);
  if (zone !== null) civilInPlace(begin, zone, ledger);
  for (let i = 0; i < times.length; i++) times[i] += begin[0];
  return true;
}

const DAY = 86400;

/** A time of day without a date belongs to the day last named, or to the next where it has passed midnight. */
function carryDates(times: Float64Array): void {
  let [day, last] = [Number.NaN, Number.NaN];
  for (let i = 0; i < times.length; i++) {
    if (Number.isNaN(times[i])) continue;
    if (times[i] >= DAY) day = Math.floor(times[i] / DAY) * DAY;
    else {
      if (day + times[i] < last - DAY / 2) day += DAY;
      times[i] += day;
    }
    last = times[i];
  }
}

function rollOver(times: Float64Array): void {
  let [last, added] = [Number.NaN, 0];
  for (let i = 0; i < times.length; i++) {
    if (Number.isNaN(times[i])) continue;
    if (times[i] < last - DAY / 2) added += DAY;
    last = times[i];
    times[i] += added;
  }
}

function civilInPlace(times: Float64Array, zone: string, ledger: ClockLedger): void {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const t of times) {
    if (t < low) low = t;
    if (t > high) high = t;
  }
  if (!(low <= high)) return;
  const { repeated, missing } = civilToUnix(times, zoneOffsets(zone, Math.max(low, -2e9), Math.min(high, 8e9)));
  if (repeated > 0) ledger.notes.push({ kind: "repeated-hour", rows: repeated });
  if (missing > 0) ledger.notes.push({ kind: "missing-hour", rows: missing, zone });
}
