import { median, quantiles } from "../numerics/order-statistics";
import type { WitnessLevels } from "./witness-levels";

/** The heap of readings at rest: its level and spread. */
export type Rest = { readonly level: number; readonly spread: number };

const CLEAR = 6; // spreads of the resting heap
/** Least reading over rest, of the highest, that may be work at all. */
const ANYTHING = 0.002;
/** Part of the usual working level under which a drive draws as good as nothing. At a quarter of its speed a pump takes 0.25^3 = 1.6 % (affinity laws). */
export const FOOT = 0.02;
const MOSTLY = 0.5;
const HARDLY = 0.1;
/**
 * A run comes to this part of the lower quartile of the working levels, where stray readings do not; and a small one, or one that runs dry, at least halfway there from
 * the foot (in the logarithm), where no stray readings do.
 */
const REACHED = 0.5;

/**
 * Rest and run of a drive by what it draws. That goes with the cube of the speed: while it runs up, idles or swings the reading may lie anywhere down to a few hundredths of what
 * is usual, so that no level between two heaps parts rest and run, and the begin of a run-up is seen long before its middle. What parts them is the
 * resting heap: a run is all that leaves it and comes up to a working level.
 * @param values shape [n]  @param high the highest of them  @param brief samples that an inrush or a tremble may last
 * @returns null where nothing rests, or what lies under the working levels is mostly no rest
 */
export function leavingRest(values: ArrayLike<number>, high: number, { level, spread }: Rest, brief: number): WitnessLevels | null {
  const over = (least: number) => {
    const kept = new Float64Array(values.length);
    let n = 0;
    for (let i = 0; i < values.length; i++) if (values[i] - level > least) kept[n++] = values[i] - level;
    return kept.subarray(0, n);
  };
  const clear = CLEAR * spread;
  const anything = over(Math.max(clear, ANYTHING * (high - level)));
  if (anything.length === 0) return null;
  const foot = Math.max(clear, FOOT * median(anything));
  const working = over(foot);
  if (working.length === 0) return null;
  const [first, middle, third] = quantiles(working, [0.25, 0.5, 0.75]);
  const usual = Math.max(REACHED * first, 1.5 * foot);
  const ends = (on: number, stray: number) => isWork(values, { level, foot, on }, brief, stray);
  const low = Math.sqrt(foot * usual);
  const on = ends(low, HARDLY) ? low : usual;
  if (on === usual && !ends(usual, MOSTLY)) return null;
  const at = level + foot;
  let rests = 0;
  for (let i = 0; i < values.length; i++) if (values[i] <= at) rests++;
  const joint = Math.hypot(spread, (third - first) / 1.349);
  return {
    kind: "two",
    thresholds: { on: level + on, off: at, at, rest: level },
    separation: joint > 0 ? middle / joint : Number.POSITIVE_INFINITY,
    share: working.length / (working.length + rests),
  };
}

/** Whether what comes up to a level is runs, with rests below the foot and little between. @param stray part of what comes up to it that may be brief */
function isWork(
  values: ArrayLike<number>,
  { level, foot, on }: { level: number; foot: number; on: number },
  brief: number,
  stray: number,
): boolean {
  let [rests, slow] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    if (values[i] - level <= foot) rests++;
    else if (values[i] - level <= on) slow++;
  }
  return rests > 0 && rests >= MOSTLY * (rests + slow) && strayShare(values, level + on, brief) <= stray;
}

/** Whether what passes a level mostly lasts no longer than `brief` samples: a tremble or an inrush, and no runs. */
export const mostlyStray = (values: ArrayLike<number>, level: number, brief: number): boolean => strayShare(values, level, brief) > MOSTLY;

/** Part of the times that a level is passed for no longer than `brief` samples; 0 where it never is. */
function strayShare(values: ArrayLike<number>, level: number, brief: number): number {
  let [short, passes, length] = [0, 0, 0];
  for (let i = 0; i <= values.length; i++) {
    if (values[i] > level) length++;
    else if (length > 0) {
      passes++;
      if (length <= brief) short++;
      length = 0;
    }
  }
  return passes === 0 ? 0 : short / passes;
}
