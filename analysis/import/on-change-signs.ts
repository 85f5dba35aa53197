import type { Samples } from "./body/row-store";

/** What the values say of a log whose rows mostly stand one scan apart with silences of many lengths in between. */
export type SilenceSign = "on-change" | "not-plain" | "gaps";

/** Fewer silences, or of fewer lengths, are gaps of a logger that was off now and then. */
const FEWEST_SILENCES = 20;
const FEWEST_LENGTHS = 4;
/** Intervals of so many scans are silences: a row may stray within its scan. */
const SILENT_FROM = 1.5;
/** Fewer changes beyond the dead band leave it to chance how they stand: 40 where 120 are expected inside. */
const FEWEST_CHANGES = 40;
/** Of a sinusoid, the worst that is sampled, changes are twice as dense beyond any width as within it: 1 - 1/3 against 1/3 at half of the greatest. */
const MOST_DENSE = 3;
/** Over two scans a ramp changes by 2 and a random walk by the root of 2 of what it does over one; half of the way, as a factor, from no difference. */
const MOST_GROWN = 2 ** 0.25;
const MOST_TAKEN = 20_000;
/** Where a dead band is looked for: these shares of the changes lie below. */
const SHARES = [0, 0.02, 0.05, 0.1, 0.2, 0.3];

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
  const quiet = columns.map((column) => medianOf(changesOf(column, beside)));
  let still = false;
  for (let c = 0; c < columns.length; c++) {
    const isQuiet = (i: number) => columns.every((column, k) => k === c || !(Math.abs(column[i] - column[i - 1]) > quiet[k]));
    const changes = changesOf(columns[c], beside.filter(isQuiet));
    const over = changesOf(columns[c], across.filter(isQuiet));
    if (changes.length < FEWEST_CHANGES || over.length < FEWEST_SILENCES || changes[changes.length - 1] === 0) continue;
    if (medianOf(over) > medianOf(changes) * MOST_GROWN) continue;
    if (hasDeadBand(changes, over)) return "on-change";
    still = true;
  }
  return still ? "not-plain" : "gaps";
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

const medianOf = (sorted: Float64Array) => sorted[sorted.length >> 1] ?? 0;

/** Of what is written after a silence, so much may lie within the dead band: by the other channels or a heartbeat. Half does where it hunts to and fro. */
const MOST_WITHIN = 0.25;

/** Whether changes just beyond some width are much denser than those within it, and a silence ends with such a change too. Both sorted. */
function hasDeadBand(changes: Float64Array, over: Float64Array): boolean {
  const finest = changes.find((change) => change > 0) ?? 0;
  const rounding = finest * 1e-3; // values in SI miss their last digit
  return SHARES.some((share) => {
    const width = Math.max(finest, changes[Math.floor(share * changes.length)]) - rounding;
    const within = countBelow(changes, width);
    const beyond = countBelow(changes, 2 * width) - within;
    // a digit of zero stands for changes up to half a digit, the others for half a digit to either side
    const density = within / (width - finest / 2);
    const keepsTo = countBelow(over, width) <= MOST_WITHIN * over.length;
    return keepsTo && beyond >= FEWEST_CHANGES && beyond / width > MOST_DENSE * density;
  });
}

function countBelow(sorted: Float64Array, limit: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle] < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
