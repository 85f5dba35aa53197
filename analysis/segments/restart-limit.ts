import type { SiteFacts } from "../../shared/site/site-facts";
import { heldLevel } from "./held-level";

/** A restart pressure is set so far under the held one at most; a sensor that reads in another scale shows itself by that. Common practice, no source. */
const HELD_OVER_RESTART = 1.5;

/** Pa by which the log and the fact may differ: a sensor of one per cent at some 5 bar, and a fact rounded to a psi. Common practice, no source. */
export const GAUGE = 5000;

/** A low over this is no start of a drive whose restart pressure is told, Pa gauge; null where it is not, or where what the log holds does not fit to it. */
export function restartLimit(kept: Float64Array, top: number, noise: number, { restartPressure }: SiteFacts): number | null {
  if (restartPressure === null) return null;
  const restart = restartPressure.value;
  const held = heldLevel(kept, restart, Math.max(top, restart), noise);
  const fits = held > restart + noise && held < HELD_OVER_RESTART * restart;
  return fits ? restart + Math.max(GAUGE, 2 * noise) : null;
}

/** How low it may have been between a low sample and its neighbours: where the lines of both flanks meet, at most, less what noise makes of it. */
export function lowestAbout(values: ArrayLike<number>, low: number, noise: number): number {
  const higher = Math.min(values[low - 1], values[low + 1]) - values[low];
  return values[low] - Math.max(0, higher - 2 * noise || 0);
}
