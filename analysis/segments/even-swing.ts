import type { SiteFacts } from "../../shared/site/site-facts";
import { crossing } from "./lobe-shape";
import type { Turn } from "./turning-points";

const LEAST_SWINGS = 5;
/** Height of the wave, from its low, at which it is measured: under the pressure that a drive holds between overshoot and starting pressure. */
const MEASURED_AT = 0.3;
/** Fall over rise of a trough, and the time over that height against the time under it (a triangle: 2.3, a sine: 1.7). */
const ALIKE = { flanks: 2, above: 5 };
const MOST_OF_THEM = 0.6;

/**
 * Whether the lows (those that `counts` takes) come to and fro: the pressure falls about as long as it rises, in all and under a third of its height, and what
 * lies over that height before lasts no longer than in a wave. A loop that hunts does both, whatever its wave. A pump that starts after a rest does not: a
 * tank gives its water far slower than the pump brings the pressure back, or, where the tank gives hardly any, the pressure was held at the top for longer.
 * Most lows must agree. False with fewer than five such lows. Our own choice.
 */
export function swingsEvenly(values: ArrayLike<number>, turns: readonly Turn[], counts: (turn: Turn) => boolean = () => true): boolean {
  const { seen, even } = evenSwings(values, turns, counts);
  return seen >= LEAST_SWINGS && even > MOST_OF_THEM * seen;
}

/** How many of the lows have their neighbours beside them, and how many of those come to and fro. */
export function evenSwings(
  values: ArrayLike<number>,
  turns: readonly Turn[],
  counts: (turn: Turn) => boolean,
): { seen: number; even: number } {
  let seen = 0;
  let even = 0;
  for (let k = 2; k + 1 < turns.length; k++) {
    if (turns[k].kind !== "low" || turns[k - 2].kind !== "low" || !counts(turns[k])) continue;
    const [before, top, low, next] = [turns[k - 2].index, turns[k - 1].index, turns[k].index, turns[k + 1].index];
    const level = values[low] + MEASURED_AT * (Math.min(values[top], values[next]) - values[low]);
    if (!(values[before] < level)) continue;
    seen++;
    const [rose, falls, rises] = [
      crossing(values, before, top, level),
      crossing(values, low, top, level),
      crossing(values, low, next, level),
    ];
    const alike = isAlike(low - top, next - low) && isAlike(low - falls, rises - low);
    if (alike && falls - rose < ALIKE.above * (rises - falls)) even++;
  }
  return { seen, even };
}

/** Within the ratio allowed and the sample by which either may be out. */
const isAlike = (fall: number, rise: number): boolean => fall < ALIKE.flanks * rise + 1 && rise < ALIKE.flanks * fall + 1;

/** Ordinary switches are not set closer than some 0.6 bar between cut-in and cut-out. Common practice, no source. */
const LEAST_DIFFERENTIAL = 60_000; // Pa

/**
 * Waves to and fro alike are a drive's hunting, not its starts. A switch may fill and draw at one rate too, but then over its whole differential.
 * @param swing from the usual low to the usual high, Pa
 */
export function mayOnlyHunt(
  values: ArrayLike<number>,
  turns: readonly Turn[],
  swing: number,
  pump: SiteFacts["pump"],
  counts?: (turn: Turn) => boolean,
): boolean {
  if (pump === "fixed-speed" || (pump === null && swing >= LEAST_DIFFERENTIAL)) return false;
  return swingsEvenly(values, turns, counts);
}
