import { writeInstant } from "../../shared/record/clock";
import { csvCell } from "../../shared/record/csv-cell";
import type { Channel, LogRecord, RowOrigin } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";
import { mostStray } from "./find-sampling";

const CHUNK = 64 * 1024;

/**
 * The record as CSV (RFC 4180): line in the file, instant (ISO UTC or elapsed seconds), then a column a channel in SI, empty where missing; the file's
 * name last where there are several. One row for each accepted row, in order of time. Given out in pieces of about 64 kB.
 */
export function* writeRecord(record: LogRecord): Generator<string> {
  const several = record.files.length > 1;
  const headings = ["line", "instant", ...record.channels.map(({ heading }) => csvCell(heading)), ...(several ? ["file"] : [])];
  const lanes = record.channels.map((channel) => laneOf(channel, record.origins));
  let text = `${headings.join(",")}\n`;
  for (const { origin, row } of rowsInTime(record.origins)) {
    const t = timeAt(origin.sampling, row);
    const line = origin.lines instanceof Uint32Array ? origin.lines[row] : origin.lines.first + row * origin.lines.step;
    text += `${line},${writeInstant(record.clock, t)}`;
    for (const lane of lanes) text += `,${cellAt(lane, origin, row, t)}`;
    text += several ? `,${csvCell(origin.file)}\n` : "\n";
    if (text.length < CHUNK) continue;
    yield text;
    text = "";
  }
  yield text;
}

/** A channel on its way through the rows. `hasRows`: some file's rows are its samples one for one. `at`: its sample nearest to the row at hand. */
type Lane = { readonly channel: Channel; readonly hasRows: boolean; at: number };

const laneOf = (channel: Channel, origins: readonly RowOrigin[]): Lane => ({
  channel,
  hasRows: origins.some(({ sampling }) => sampling === channel.sampling),
  at: 0,
});

/** Instants that differ by less are one, s: half of the finest digit that a stamp has. */
const SAME_INSTANT = 1e-6;

/**
 * The sample of a channel at a row, for rows in order of time: by its place where the rows are its samples, nothing in the rows of other files. A channel
 * with instants of its own (seldom logged, or joined from several parts) stands in the row that is nearest to each, no farther than an even sampling
 * moves an instant.
 */
function cellAt(lane: Lane, origin: RowOrigin, row: number, t: number): string {
  const { channel, hasRows } = lane;
  if (channel.sampling === origin.sampling) return writeNumber(channel.values[row], channel.values);
  if (hasRows) return "";
  const last = sampleCount(channel.sampling) - 1;
  while (lane.at < last && timeAt(channel.sampling, lane.at + 1) - t <= t - timeAt(channel.sampling, lane.at)) lane.at++;
  if (last < 0 || !isNearestRow(origin, row, t, timeAt(channel.sampling, lane.at), mostStray(channel.sampling))) return "";
  return writeNumber(channel.values[lane.at], channel.values);
}

/** Whether no other row of the file is nearer to an instant, and this one near enough to be it. */
function isNearestRow({ sampling }: RowOrigin, row: number, t: number, instant: number, stray: number): boolean {
  const away = Math.abs(instant - t);
  if (away <= SAME_INSTANT) return true;
  if (away > SAME_INSTANT + stray + mostStray(sampling)) return false;
  if (row > 0 && Math.abs(instant - timeAt(sampling, row - 1)) <= away) return false;
  return row + 1 >= sampleCount(sampling) || Math.abs(instant - timeAt(sampling, row + 1)) >= away;
}

/** As few digits as bring back the same sample. */
function writeNumber(value: number, samples: Channel["values"]): string {
  if (Number.isNaN(value)) return "";
  if (samples instanceof Float64Array) return String(value);
  for (const digits of [7, 8]) {
    const short = Number(value.toPrecision(digits));
    if (Math.fround(short) === value) return String(short);
  }
  return String(Number(value.toPrecision(9)));
}

/** Rows of all files merged by instant. Samplings that several origins share are rows of one another only once. */
function* rowsInTime(origins: readonly RowOrigin[]): Generator<{ origin: RowOrigin; row: number }> {
  const at = origins.map(() => 0);
  const counts = origins.map(({ sampling }) => sampleCount(sampling));
  for (;;) {
    let first = -1;
    for (let i = 0; i < origins.length; i++) {
      if (at[i] >= counts[i]) continue;
      if (first < 0 || timeAt(origins[i].sampling, at[i]) < timeAt(origins[first].sampling, at[first])) first = i;
    }
    if (first < 0) return;
    yield { origin: origins[first], row: at[first]++ };
  }
}
