import type { Samples } from "./body/row-store";
import { countBelow } from "./dead-band";
import { signOfSilences } from "./on-change-signs";

/** How a logger writes: by a clock, or when something happens. */
export type Rhythm =
  /** `unsure`: its silences may as well be those of a logger that writes on change. */
  | { readonly kind: "sampled"; readonly unsure?: true }
  /** `heartbeat`: the longest it stays silent while nothing happens, s; null where it has none. */
  | { readonly kind: "on-change"; readonly heartbeat: number | null };

const FEWEST_ROWS = 20;
/** A sampled log has nearly all its intervals at the usual one, whatever gaps it has. */
const REGULAR_SHARE = 0.7;
/** Under this share at the usual interval there is no rate at all. */
const NO_RATE_SHARE = 0.25;
const CHANGED_SHARE = 0.97;
const MOST_SORTED = 20_000;

/**
 * Tells a logger that writes when a value changes, or at events and by a heartbeat in between, from one that samples. On change: the intervals are
 * irregular and nearly every row differs from the one before, or regular but for silences over which the values stay within a dead band. Heartbeat: intervals much longer than the short ones cluster at one length and follow
 * each other (a logger that sleeps between bursts never sleeps twice in a row). Times [n], s, strictly rising; columns [n] each.
 */
export function findRhythm(times: Float64Array, columns: readonly Samples[]): Rhythm {
  if (times.length < FEWEST_ROWS) return { kind: "sampled" };
  const intervals = intervalsOf(times);
  const sorted = evenChoice(intervals).sort();
  const usual = sorted[sorted.length >> 1];
  const share = shareNear(intervals, usual);
  const onChange = () => ({ kind: "on-change" as const, heartbeat: findHeartbeat(times) });
  const isRegular = share >= REGULAR_SHARE && sorted[Math.floor(sorted.length * 0.1)] > usual / 5;
  if (!isRegular && hasBeat(intervals, sorted)) return onChange();
  // Far apart at both ends: a logger that samples at one interval, or changes it now and then, is not like that.
  const wide = sorted[Math.floor(sorted.length * 0.9)] > 3 * sorted[Math.floor(sorted.length * 0.1)];
  const hasNoRate = share < NO_RATE_SHARE || (share < REGULAR_SHARE && changedShare(columns, times.length) >= CHANGED_SHARE);
  if (!isRegular && wide && hasNoRate) return onChange();
  // Most rows one scan apart: sampled with gaps, or on change of a signal that is seldom still, by what the values say.
  const sign = share < NO_RATE_SHARE ? "gaps" : signOfSilences(times, usual, columns);
  if (sign === "on-change") return onChange();
  return sign === "not-plain" ? { kind: "sampled", unsure: true } : { kind: "sampled" };
}

function evenChoice(intervals: Float64Array): Float64Array {
  const stride = Math.ceil(intervals.length / MOST_SORTED);
  return Float64Array.from({ length: Math.ceil(intervals.length / stride) }, (_, i) => intervals[i * stride]);
}

function shareNear(intervals: Float64Array, usual: number): number {
  let near = 0;
  for (const interval of intervals) if (Math.abs(interval - usual) <= usual * 0.15) near++;
  return near / intervals.length;
}

/** Intervals at the end of a heartbeat lie so near to it, as a share. */
const AT_BEAT = 0.03;
const FEWEST_BEATS = 5;
/** So many beats for one silence that is somewhat shorter: lengths of silences without a beat thin out evenly. */
const BEATS_TO_SHORTER = 3;

/**
 * The longest that a logger on change stays silent while nothing happens, s: where its longest silences are of one length, but for a few in which it was
 * off. Null where they are not: it has no beat, or something always happens before. Times [n], s, strictly rising.
 */
export function findHeartbeat(times: Float64Array): number | null {
  const sorted = intervalsOf(times).sort();
  const count = (from: number, to: number) => countBelow(sorted, to) - countBelow(sorted, from);
  for (let longer = 0; longer < sorted.length; ) {
    const length = sorted[sorted.length - 1 - longer];
    const beats = count(length * (1 - AT_BEAT), Number.POSITIVE_INFINITY) - longer;
    const shorter = count(length / 2, length * (1 - AT_BEAT));
    if (beats >= FEWEST_BEATS) return longer * 2 <= beats && beats > BEATS_TO_SHORTER * shorter ? length : null;
    longer += beats;
  }
  return null;
}

const intervalsOf = (times: Float64Array) => Float64Array.from({ length: times.length - 1 }, (_, i) => times[i + 1] - times[i]);

/** Whether long silences cluster at a length, several following each other and shorter intervals between. */
function hasBeat(intervals: Float64Array, sorted: Float64Array): boolean {
  // Below the few true gaps: the length that a twentieth of all intervals reach or pass.
  const length = sorted[Math.floor(sorted.length * 0.95)];
  const isBeat = (interval: number) => interval > length * 0.9 && interval < length * 1.1;
  let beats = 0;
  let inRow = 0;
  let short = 0;
  for (let i = 0; i < intervals.length; i++) {
    if (intervals[i] < length / 5) short++;
    if (!isBeat(intervals[i])) continue;
    beats++;
    if (i + 1 < intervals.length && isBeat(intervals[i + 1])) inRow++;
  }
  const some = Math.max(3, intervals.length * 0.02);
  return beats >= some && short >= some && inRow >= beats * 0.3;
}

/** Share of rows that differ from the row before in some column. */
function changedShare(columns: readonly Samples[], count: number): number {
  let changed = 0;
  for (let i = 1; i < count; i++)
    if (columns.some((column) => column[i] !== column[i - 1] && !(Number.isNaN(column[i]) && Number.isNaN(column[i - 1])))) changed++;
  return changed / Math.max(1, count - 1);
}
