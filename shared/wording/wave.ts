import type { OscillationEpisode } from "../findings/finding";

const DRIVEN_BY = {
  loop: "The control loop drives it, not the draw",
  demand: "The demand drives it: flow leads and pressure moves against it",
  cycling: "It goes with the pump's starts and stops",
  unknown: "What drives it cannot be told from these channels",
} as const;

export const WAVE_SHAPES = {
  sine: "close to a sine, as a loop makes it",
  triangle: "triangular, as between two limits",
  square: "square",
  unclear: "of no clear shape",
} as const;

export const PUMPS_OWN_FLOW = "The flow swings as the pump's own does at a meter before the tank, which tells nothing about who drives.";

/** What drives the oscillation for most of its time, and for how much of it where that is not all. */
export function sayDriver(episodes: readonly OscillationEpisode[]): string {
  const total = episodes.reduce((sum, e) => sum + e.to - e.from, 0);
  const shareOf = (by: keyof typeof DRIVEN_BY) => episodes.reduce((sum, e) => sum + (e.drivenBy === by ? e.to - e.from : 0), 0) / total;
  const [by, share] = (Object.keys(DRIVEN_BY) as (keyof typeof DRIVEN_BY)[])
    .map((key) => [key, shareOf(key)] as const)
    .reduce((most, next) => (next[1] > most[1] ? next : most));
  return share > 0.995 ? DRIVEN_BY[by] : `${DRIVEN_BY[by]}, for ${Math.round(100 * share)} % of that time`;
}
