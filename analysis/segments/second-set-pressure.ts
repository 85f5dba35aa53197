import type { PumpState } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { median, quantile } from "../numerics/order-statistics";
import { theilSen } from "../numerics/theil-sen";

/** A drive's pressure of day and night: the one that it holds most of its runs, and when it held the other. Pa gauge. */
export type SecondSetPressure = { readonly usual: number; readonly other: number; readonly times: readonly Span[] };

/** A long run is looked at in pieces of so many s; of the last, and of a short run, the last third: there the pressure is up. */
const PIECE = 300;
const LAST = 1 / 3;
const MOST_PIECES = 2000; // of a long log some are left out, evenly
/** The level of most runs is looked for within this share to either side: about a drive's band before it sleeps. */
const LEVEL = 0.02;
/** Where another set pressure may lie, as shares of the usual one: nearer is a drift or a boost, farther off water or prime is missing. */
const OTHER = { least: 0.07, low: 0.6, high: 1.6 };
/** So many pieces at the least at each level. */
const LEAST_PIECES = 3;
/** Most pieces of one level lie clear of those of the other: their quantiles by this share of what is between the levels. */
const CLEAR = { most: 0.8, gap: 0.3 };
/** Of the squares about one straight line: so much or less is left of them about two levels. */
const FITS_BETTER = 0.6;
/** A clock changes it twice a day, and leaves it so for an hour or longer, s; at the same time of day to this many s. */
const DAY = 86_400;
const LEAST_STAY = 3600;
const SAME_TIME = 1800;
/** In the Viterbi path a change costs as much as this many pieces that lie off their level. */
const CHANGE = 1.25;
/** A clock changes it at once, a drift does not: from the pieces just before a change to those just after lies this share of what is between the levels. */
const AT_ONCE = { pieces: 3, share: 0.6 };
/** A reading that stands still is no set pressure: from run to run it moves by at least this share of what it moves by about the usual level. */
const SWINGS = 0.2;
/** A pump at its end does not stop: so many sleeps at a level show that it is asked for. */
const LEAST_STOPS = 3;

type Piece = { readonly from: number; readonly to: number; readonly level: number; readonly stops: boolean };

/**
 * Whether a drive held two set pressures, the one by the clock: as by night. Each run's level is where it ends; two levels, each held through most of its own
 * runs, are parted by a path over the runs that changes seldom (Viterbi; the same in every night of a longer log). In each the pump must have gone to
 * sleep several times: a pump that cannot do more does not stop, and its pressure follows its curve.
 * Null for a pump on a switch, and where two such levels are not seen. O(samples).
 */
export function findSecondSetPressure({ values, sampling }: Channel, pump: PumpState): SecondSetPressure | null {
  if (pump.mode !== "switching") return null;
  const between = (from: number, to: number) => values.slice(indexAtOrAfter(sampling, from), indexAtOrAfter(sampling, to + 1e-6));
  const pieces = piecesOf(pump.runs, (from, to) => median(between(from, to)));
  if (pieces.length < 2 * LEAST_PIECES) return null;
  const levels = pieces.map(({ level }) => level);
  const usual = commonest(levels, LEVEL);
  const isApart = (level: number) => Math.abs(level / usual - 1) > OTHER.least && level > OTHER.low * usual && level < OTHER.high * usual;
  const others = levels.filter(isApart);
  if (others.length < LEAST_PIECES) return null;
  const other = commonest(others, LEVEL);
  const path = likeliestPath(levels, [usual, other]);
  const stays = staysOf(pieces, path, usual, timeAt(sampling, values.length - 1));
  const swing = (at: number) =>
    median(pieces.flatMap(({ from }, i) => (path[i] === at && path[i + 1] === at ? rangeOf(between(from, pieces[i + 1].from)) : [])));
  const [atUsual, atOther] = [0, 1].map((at) => pieces.filter((_, i) => path[i] === at));
  const areHeld = arePartedLevels(usual > other ? [atOther, atUsual] : [atUsual, atOther]);
  if (
    !areHeld ||
    !isNoRamp(pieces, path, [usual, other]) ||
    !changesAtOnce(levels, path, Math.abs(usual - other)) ||
    !areByClock(stays) ||
    swing(1) < SWINGS * swing(0)
  )
    return null;
  return { usual, other, times: stays.filter(({ at }) => at === 1).map(({ from, to }) => ({ from: seconds(from), to: seconds(to) })) };
}

function rangeOf(values: ArrayLike<number>): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < values.length; i++) {
    if (values[i] < low) low = values[i];
    if (values[i] > high) high = values[i];
  }
  return Math.max(0, high - low);
}

function piecesOf(runs: PumpState["runs"], levelOf: (from: number, to: number) => number): Piece[] {
  const spans = runs
    .map(({ from, to }, i) => ({ from, to, rests: i + 1 < runs.length && runs[i + 1].from > to }))
    .flatMap(({ from, to, rests }) => {
      const count = Math.max(1, Math.floor((to - from) / PIECE));
      const length = (to - from) / count;
      return Array.from({ length: count }, (_, k) => {
        const [begin, end, isLast] = [from + k * length, from + (k + 1) * length, k === count - 1];
        return { from: begin, to: end, held: isLast ? end - LAST * length : begin, stops: rests && isLast };
      });
    });
  const stride = Math.ceil(spans.length / MOST_PIECES);
  const some = spans.filter((_, i) => i % stride === 0);
  return some.map(({ held, ...span }) => ({ ...span, level: levelOf(held, span.to) })).filter(({ level }) => level > 0);
}

/** Middle of the fullest window of this width to either side, as a share. O(n log n) */
function commonest(levels: readonly number[], width: number): number {
  const sorted = [...levels].sort((a, b) => a - b);
  let [most, at] = [0, Number.NaN];
  for (let low = 0, high = 0; high < sorted.length; high++) {
    while (sorted[high] > sorted[low] * (1 + 2 * width)) low++;
    if (high - low + 1 > most) [most, at] = [high - low + 1, sorted[(low + high) >> 1]];
  }
  return at;
}

/** Which of two levels each piece belongs to, 0 or 1: the fewest pieces off their level, a change counted as some of them (Viterbi). */
function likeliestPath(levels: readonly number[], [usual, other]: readonly [number, number]): Uint8Array {
  const apart = Math.abs(usual - other);
  const costs = (level: number) => [usual, other].map((at) => Math.min(1, Math.abs(level - at) / apart));
  const from = levels.map(() => [0, 0]);
  let total = costs(levels[0]);
  for (let i = 1; i < levels.length; i++) {
    const own = costs(levels[i]);
    from[i] = [0, 1].map((at) => (total[1 - at] + CHANGE < total[at] ? 1 - at : at));
    total = [0, 1].map((at) => Math.min(total[at], total[1 - at] + CHANGE) + own[at]);
  }
  const path = new Uint8Array(levels.length);
  path[levels.length - 1] = total[1] < total[0] ? 1 : 0;
  for (let i = levels.length - 1; i > 0; i--) path[i - 1] = from[i][path[i]];
  return path;
}

type Stay = { readonly from: number; readonly to: number; readonly at: number };

/**
 * Stays at one level; the one besides the usual reaches over the rests before and after it, where the pressure falls from, or to, it, and over a piece beside it
 * that is not at the usual level: the change lies within.
 */
function staysOf(pieces: readonly Piece[], path: Uint8Array, usual: number, until: number): Stay[] {
  const isPure = ({ level }: Piece) => Math.abs(level / usual - 1) <= LEVEL;
  const stays: Stay[] = [];
  for (let first = 0; first < pieces.length; ) {
    let end = first;
    while (end < pieces.length && path[end] === path[first]) end++;
    const at = path[first];
    const from =
      first === 0 ? 0 : at === 0 ? pieces[first].from : isPure(pieces[first - 1]) ? pieces[first - 1].to : pieces[first - 1].from;
    const to = end === pieces.length ? until : at === 0 ? pieces[end - 1].to : isPure(pieces[end]) ? pieces[end].from : pieces[end].to;
    stays.push({ from, to, at });
    first = end;
  }
  return stays;
}

/** Whether the pieces of the lower level and of the higher are two heaps, and so the stops among them: a boost before sleep lifts stops, not a set pressure. */
function arePartedLevels([lower, higher]: readonly [readonly Piece[], readonly Piece[]]): boolean {
  const [slept, sleptHigher] = [lower, higher].map((pieces) => pieces.filter(({ stops }) => stops));
  if (Math.min(lower.length, higher.length) < LEAST_PIECES || slept.length < LEAST_STOPS) return false;
  return areClear(lower, higher) && (sleptHigher.length < LEAST_STOPS || areClear(slept, sleptHigher));
}

/** Whether most of the lower lie clear of most of the higher. */
function areClear(lower: readonly Piece[], higher: readonly Piece[]): boolean {
  const at = (pieces: readonly Piece[], share: number) =>
    quantile(
      Float64Array.from(pieces, ({ level }) => level),
      share,
    );
  return at(higher, 1 - CLEAR.most) - at(lower, CLEAR.most) >= CLEAR.gap * (at(higher, 0.5) - at(lower, 0.5));
}

/** Whether two levels fit the pieces much better than one straight line over time, which a drift of the reading would be: by the squares. */
function isNoRamp(pieces: readonly Piece[], path: Uint8Array, levels: readonly [number, number]): boolean {
  const line = theilSen(
    pieces.map(({ from }) => from),
    pieces.map(({ level }) => level),
  );
  if (line === null) return true;
  const total = (of: (piece: Piece, i: number) => number) => pieces.reduce((sum, piece, i) => sum + of(piece, i) ** 2, 0);
  const middle = median(pieces.map(({ from, level }) => level - line.slope * from));
  const offLine = total(({ from, level }) => level - middle - line.slope * from);
  return total(({ level }, i) => level - levels[path[i]]) <= FITS_BETTER * offLine;
}

function changesAtOnce(levels: readonly number[], path: Uint8Array, apart: number): boolean {
  const isSteep = (i: number) => {
    const before = levels.filter((_, k) => k < i && k >= i - AT_ONCE.pieces && path[k] === path[i - 1]);
    const after = levels.filter((_, k) => k >= i && k < i + AT_ONCE.pieces && path[k] === path[i]);
    return Math.abs(median(after) - median(before)) >= AT_ONCE.share * apart;
  };
  return levels.every((_, i) => i === 0 || path[i] === path[i - 1] || isSteep(i));
}

/** Long stays, and changes of each kind at one time of the day; with one night there is nothing to compare. */
function areByClock(stays: readonly Stay[]): boolean {
  const isInner = (_: Stay, i: number) => i > 0 && i < stays.length - 1;
  const others = stays.filter(({ at }) => at === 1);
  if (stays.filter(isInner).some(({ from, to }) => to - from < LEAST_STAY)) return false;
  if (others.reduce((sum, { from, to }) => sum + to - from, 0) < LEAST_STAY) return false;
  const downs = stays.filter(({ at }, i) => at === 1 && i > 0).map(({ from }) => seconds(from));
  const ups = stays.filter(({ at }, i) => at === 1 && i < stays.length - 1).map(({ to }) => seconds(to));
  return [downs, ups].every(isOneTimeOfDay);
}

const isOneTimeOfDay = (times: readonly Seconds[]): boolean => {
  const apart = (a: number, b: number) => Math.abs(((((a - b) % DAY) + 1.5 * DAY) % DAY) - DAY / 2);
  return times.every((time) => apart(time, times[0]) <= SAME_TIME);
};
