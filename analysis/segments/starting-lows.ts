import { median, quantiles } from "../numerics/order-statistics";
import { swingsEvenly } from "./even-swing";
import { heldLevel } from "./held-level";
import { crossing } from "./lobe-shape";
import type { Turn } from "./turning-points";

/** The turns that are starts and stops of the pump, with the usual pressure at a start, Pa. `below`: a low above it is no start; Infinity where all are. */
export type StartingLows = { readonly turns: readonly Turn[]; readonly low: number; readonly high: number; readonly below: number };

type OnSwitch = (low: number, high: number, starts: number) => boolean;
export type Curve = { readonly values: ArrayLike<number>; readonly kept: Float64Array; readonly noise: number };

const LEAST_STARTS = 3;
/** Starts of one pump lie at one pressure: the quartiles of the lows stay within this part of the height of the swings. */
const LOWS_WITHIN = 0.25;

/**
 * Which lows are starts. Those of one pump lie at one pressure: the quartiles of the lows, or of their lower heap, agree. Failing that, so many lie so closely
 * together that it is no chance; else a tank that empties before the pump starts lets the pressure plunge, and the plunges are the starts.
 * @param fine turns of smaller swings too, which are looked at where a pump on a switch may have made them
 * @param onSwitch whether a pump on a switch alone can have made the turns about that low: then every rise is a run, however deep it began
 * @returns null where the lows do not tell
 */
export function startingLows(
  curve: Curve,
  all: readonly Turn[],
  fine: readonly Turn[],
  fixed: boolean,
  onSwitch: OnSwitch,
): StartingLows | null {
  const { turns, below } = fixed ? { turns: all, below: Number.POSITIVE_INFINITY } : deepestTurns(curve.values, all, curve.noise);
  const agreed = agreeing(curve.values, turns, below);
  if (agreed !== null) return agreed;
  const [lows, highs] = [pressuresOf(curve.values, all, "low"), pressuresOf(curve.values, all, "high")];
  if (lows.length < LEAST_STARTS || highs.length < LEAST_STARTS) return null;
  return switched(curve.values, fine, fixed, onSwitch) ?? crowded(lows, median(highs), all) ?? plunges(curve, all, lows, median(highs));
}

function agreeing(values: ArrayLike<number>, turns: readonly Turn[], below: number): StartingLows | null {
  const [lows, highs] = [pressuresOf(values, turns, "low"), pressuresOf(values, turns, "high")];
  if (lows.length < LEAST_STARTS || highs.length < LEAST_STARTS) return null;
  const [q1, low, q3] = quantiles(lows, [0.25, 0.5, 0.75]);
  const high = median(highs);
  return q3 - q1 <= LOWS_WITHIN * (high - low) ? { turns, low, high, below } : null;
}

const pressuresOf = (values: ArrayLike<number>, turns: readonly Turn[], kind: Turn["kind"]): Float64Array =>
  Float64Array.from(turns.flatMap((turn) => (turn.kind === kind ? [values[turn.index]] : []))).sort();

const TOPS_WITHIN = 0.1; // of the swing, between the quartiles of the tops

/** A switch stops the pump at one pressure, whatever is drawn, and starts it at one; lower lows are those of a tank that was empty by then. */
function switched(values: ArrayLike<number>, turns: readonly Turn[], fixed: boolean, onSwitch: OnSwitch): StartingLows | null {
  const [lows, highs] = [pressuresOf(values, turns, "low"), pressuresOf(values, turns, "high")];
  if (lows.length < LEAST_STARTS || highs.length < LEAST_STARTS) return null;
  const [low] = quantiles(lows, [0.75]);
  const [q1, high, q3] = quantiles(highs, [0.25, 0.5, 0.75]);
  if (!fixed && (q3 - q1 > TOPS_WITHIN * (high - low) || !onSwitch(low, high, lows.length))) return null;
  return { turns, low, high, below: Number.POSITIVE_INFINITY };
}

/** Three lows in ten within a tenth of the swing do not lie there by chance, and at least so many. */
const CROWD = { share: 0.3, within: 0.1, least: 8 };

function crowded(lows: Float64Array, high: number, turns: readonly Turn[]): StartingLows | null {
  const count = Math.max(CROWD.least, Math.ceil(CROWD.share * lows.length));
  if (count > lows.length) return null;
  let first = 0;
  for (let i = 1; i + count <= lows.length; i++) if (lows[i + count - 1] - lows[i] < lows[first + count - 1] - lows[first]) first = i;
  const low = median(lows.subarray(first, first + count));
  const width = lows[first + count - 1] - lows[first];
  return width <= CROWD.within * (high - low) ? { turns, low, high, below: Number.POSITIVE_INFINITY } : null;
}

/** A plunge is over as soon as the pump gives: so many samples, or s where these are shorter. */
const BRIEF_SAMPLES = 15;
const MOSTLY_BRIEF = 0.7;
/** The gap over the plunges is no smaller than this part of their own depth. */
const CLEAR_OF_DEEP = 0.2;
/** A rest ends in the plunge: the pressure left the held level this many times longer before the low than it needs to come back. */
const FALLS_LONGER = 1.5;

/**
 * Lows that lie so far under all the others that the pressure had collapsed, and were left at once: the tank ran empty and the pump then started. What a
 * running drive recovers from lies nearer to the pressure it holds than to those. A draw above what the pump gives also collapses the pressure, but for as long as it lasts.
 */
function plunges({ values, kept, noise }: Curve, turns: readonly Turn[], lows: Float64Array, high: number): StartingLows | null {
  const top = heldLevel(kept, lows[lows.length - 1], high, noise);
  const levels = Float64Array.from([...lows, top]).sort(); // where no dip is as deep as the turns looked for, what lies above is the held level itself
  let widest = -1;
  for (let k = LEAST_DEEP; k < levels.length; k++)
    if (widest < 0 || levels[k] - levels[k - 1] > levels[widest] - levels[widest - 1]) widest = k;
  if (widest < 0) return null;
  const gap = levels[widest] - levels[widest - 1];
  const below = (levels[widest] + levels[widest - 1]) / 2;
  const held = heldLevel(kept, below, high, noise);
  const depth = held - median(levels.subarray(0, widest));
  if (gap < Math.max(held - levels[widest], CLEAR_OF_DEEP * depth, LEAST_DISTANCE * noise)) return null;
  const deep = deepOnes(values, turns, below);
  const [falls, rises, under] = [[], [], []] as [number[], number[], number[]];
  for (let k = 1; k + 1 < deep.length; k++) {
    if (deep[k].kind !== "low") continue;
    const level = held - 0.1 * (held - below);
    const [from, at, to] = [deep[k - 1].index, deep[k].index, deep[k + 1].index];
    falls.push(at - crossing(values, at, from, level));
    rises.push(crossing(values, at, to, level) - at);
    under.push(crossing(values, at, to, below) - crossing(values, at, from, below));
  }
  if (falls.length < LEAST_DEEP || !(median(falls) > FALLS_LONGER * median(rises))) return null;
  if (under.filter((time) => time <= BRIEF_SAMPLES).length < MOSTLY_BRIEF * under.length) return null;
  return { turns: deep, low: quantiles(levels.subarray(0, widest), [0.75])[0], high: median(pressuresOf(values, deep, "high")), below };
}

const LEAST_DEEP = 5;
const DEEP_TOGETHER = 1 / 3; // of the distance between the two heaps of lows
const NEIGHBOURS = 8; // on either side of a gap between lows
const LEAST_DISTANCE = 4; // noise spreads
const APART = 5; // times the spacing of the lows on either side

/**
 * A pump that rested starts no later than at its starting pressure, so that its lows lie at or under it; a running pump's recovery (hunting, draws) turns
 * anywhere. Where the lows make two heaps, the lower is the starts if it lies closely together, or if the upper turns evenly to and fro, which a rest that
 * ends in a start does not. Tops are the highest between two such lows. `below`: the level between the heaps, Pa; Infinity where there is one heap.
 */
function deepestTurns(values: ArrayLike<number>, turns: readonly Turn[], noise: number): { turns: readonly Turn[]; below: number } {
  const lows = Float64Array.from(turns.flatMap(({ kind, index }) => (kind === "low" ? [values[index]] : []))).sort();
  const whole = { turns, below: Number.POSITIVE_INFINITY };
  let widest = -1;
  for (let k = LEAST_DEEP; k + LEAST_DEEP <= lows.length; k++)
    if (widest < 0 || lows[k] - lows[k - 1] > lows[widest] - lows[widest - 1]) widest = k;
  if (widest < 0) return whole;
  const below = (lows[widest] + lows[widest - 1]) / 2;
  const distance = lows[widest] - lows[widest - 1];
  const [q1, q9] = quantiles(lows.subarray(0, widest), [0.1, 0.9]);
  if (distance < LEAST_DISTANCE * noise) return whole; // two steps of a coarse channel are no two heaps
  const upper = (turn: Turn) => turn.kind === "low" && values[turn.index] > below;
  const together = q9 - q1 <= DEEP_TOGETHER * distance;
  if (!together && !(distance > Math.max(3 * noise, APART * spacingAbout(lows, widest)) && swingsEvenly(values, turns, upper)))
    return whole;
  return { turns: deepOnes(values, turns, below), below };
}

const deepOnes = (values: ArrayLike<number>, turns: readonly Turn[], below: number) =>
  withoutLows(values, turns, ({ index }) => values[index] > below);

/** The turns without some of the lows; of the tops between two lows that are left, the highest. */
export function withoutLows(values: ArrayLike<number>, turns: readonly Turn[], isOut: (low: Turn) => boolean): Turn[] {
  const left: Turn[] = [];
  for (const turn of turns) {
    if (turn.kind === "low" && isOut(turn)) continue;
    const last = left.at(-1);
    if (last?.kind !== turn.kind) left.push(turn);
    else if (turn.kind === "high" && values[turn.index] > values[last.index]) left[left.length - 1] = turn;
  }
  return left;
}

/** Mean step between neighbours of a sorted column on the side of a gap where they lie further apart. */
function spacingAbout(sorted: Float64Array, gap: number): number {
  const first = Math.max(0, gap - 1 - NEIGHBOURS);
  const last = Math.min(sorted.length - 1, gap + NEIGHBOURS);
  return Math.max((sorted[gap - 1] - sorted[first]) / (gap - 1 - first), (sorted[last] - sorted[gap]) / (last - gap));
}
