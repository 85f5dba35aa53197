import type { Samples } from "./body/row-store";
import { FEWEST_CHANGES, hasDeadBand, hasGrown, medianOf } from "./dead-band";

/** What the values say of a log whose rows mostly stand one scan apart with silences of many lengths in between. */
export type SilenceSign = "on-change" | "not-plain" | "gaps";

/** Fewer silences, or of fewer lengths, are gaps of a logger that was off now and then. */
const FEWEST_SILENCES = 20;
const FEWEST_LENGTHS = 4;
/** Intervals of so many scans are silences: a row may stray within its scan. */
const SILENT_FROM = 1.5;
const MOST_TAKEN = 20_000;

/**
 * Tells silences of a logger that writes on change from gaps of one that samples. A logger on change writes a row because a channel changed by its dead
 * band: of the changes from one row to the next, while the other channels are quiet, few or none are smaller. Of a signal that is sampled, small
 * changes are at least as dense as great ones, noise or not. And over a silence on change a value moves no more than over one scan, for it would have
 * been written; over a gap it goes on. Not plain: it moves no more, but no dead band shows, as of a steady signal with noise.
 * Times [n], s, strictly rising; `scan` the usual interval, s; columns [n] each.
 */
export function signOfSilences(times: Float64Array, scan: number, columns: readonly Samples[]): SilenceSign {
  const silent = silencesOf(times, scan);
  if (silent.length < FEWEST_SILENCES) return "gaps";
  const lengths = new Set(silent.map((i) => Math.round((times[i] - times[i - 1]) / scan)));
  if (lengths.size < FEWEST_LENGTHS) return "gaps";
  const [beside, across] = [rowsBeside(times, scan), thinned(silent)];
  const usual = columns.map((column) => medianOf(changesOf(column, beside)));
  // the others not moving at all is surest, and may be rare where they are read finely
  const signs = [columns.map(() => 0), usual].flatMap((quiet) =>
    columns.map((column, c) => {
      const isQuiet = (i: number) => columns.every((other, k) => k === c || !(Math.abs(other[i] - other[i - 1]) > quiet[k]));
      return signOfChanges(changesOf(column, beside.filter(isQuiet)), changesOf(column, across.filter(isQuiet)));
    }),
  );
  return signs.find((sign) => sign === "on-change") ?? signs.find((sign) => sign === "not-plain") ?? "gaps";
}

/** What one channel says while the others are quiet: its changes from row to row and over silences, both sorted. */
function signOfChanges(changes: Float64Array, over: Float64Array): SilenceSign {
  if (changes.length < FEWEST_CHANGES || over.length < FEWEST_SILENCES || changes[changes.length - 1] === 0) return "gaps";
  if (hasGrown(over, changes)) return "gaps";
  return hasDeadBand(changes, over) ? "on-change" : "not-plain";
}

/** Rows after a silence. */
function silencesOf(times: Float64Array, scan: number): number[] {
  const rows: number[] = [];
  for (let i = 1; i < times.length; i++) if (times[i] - times[i - 1] > SILENT_FROM * scan) rows.push(i);
  return rows;
}

/** Some thousands of the rows one scan after the row before, evenly chosen. */
function rowsBeside(times: Float64Array, scan: number): number[] {
  const stride = Math.ceil(times.length / MOST_TAKEN);
  const rows: number[] = [];
  for (let i = 1; i < times.length; i += stride) if (times[i] - times[i - 1] <= SILENT_FROM * scan) rows.push(i);
  return rows;
}

/** An even choice of at most some thousands. */
function thinned(rows: readonly number[]): readonly number[] {
  const stride = Math.ceil(rows.length / MOST_TAKEN);
  return stride <= 1 ? rows : rows.filter((_, k) => k % stride === 0);
}

/** How much a channel changed to each of some rows from the row before, sorted, without missing ones. */
function changesOf(column: Samples, rows: readonly number[]): Float64Array {
  return Float64Array.from(rows, (i) => Math.abs(column[i] - column[i - 1]))
    .filter((change) => !Number.isNaN(change))
    .sort();
}
