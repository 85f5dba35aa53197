import { writeInstant } from "../../shared/record/clock";
import { csvCell } from "../../shared/record/csv-cell";
import type { Channel, LogRecord, RowOrigin } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";

const CHUNK = 64 * 1024;

/**
 * The record as CSV (RFC 4180): line in the file, instant (ISO UTC or elapsed seconds), then a column a channel in SI, empty where missing; the file's
 * name last where there are several. One row for each accepted row, in order of time. Given out in pieces of about 64 kB.
 */
export function* writeRecord(record: LogRecord): Generator<string> {
  const several = record.files.length > 1;
  const headings = ["line", "instant", ...record.channels.map(({ heading }) => csvCell(heading)), ...(several ? ["file"] : [])];
  const next = record.channels.map(() => 0);
  let text = `${headings.join(",")}\n`;
  for (const { origin, row } of rowsInTime(record.origins)) {
    const t = timeAt(origin.sampling, row);
    const line = origin.lines instanceof Uint32Array ? origin.lines[row] : origin.lines.first + row * origin.lines.step;
    text += `${line},${writeInstant(record.clock, t)}`;
    for (let i = 0; i < record.channels.length; i++) text += `,${cellAt(record.channels[i], origin, row, t, next, i)}`;
    text += several ? `,${csvCell(origin.file)}\n` : "\n";
    if (text.length < CHUNK) continue;
    yield text;
    text = "";
  }
  yield text;
}

/** The sample of a channel at a row: by its place where both share a sampling, else by its instant, each sample once. */
function cellAt(channel: Channel, origin: RowOrigin, row: number, t: number, next: number[], i: number): string {
  if (channel.sampling === origin.sampling) return writeNumber(channel.values[row], channel.values);
  const at = next[i];
  if (at >= sampleCount(channel.sampling) || timeAt(channel.sampling, at) > t + 1e-6) return "";
  next[i]++;
  return writeNumber(channel.values[at], channel.values);
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
