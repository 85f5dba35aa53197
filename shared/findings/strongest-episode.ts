import type { OscillationEpisode } from "./finding";

/**
 * The episode that swings most for sure, by the low end of its height: of many heights told from few waves each the largest value is too large by
 * selection alone. Null of none.
 */
export const strongestEpisode = (episodes: readonly OscillationEpisode[]): OscillationEpisode | null =>
  episodes.reduce<OscillationEpisode | null>((a, b) => (a === null || b.peakToPeak.low > a.peakToPeak.low ? b : a), null);
