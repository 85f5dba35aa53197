import type { OscillationEpisode } from "../../../shared/findings/finding";
import { seconds } from "../../../shared/units/quantity";

const SAME_PERIOD = 1.15;
/** A break of fewer waves (or of less than a minute) ends nothing. */
const LEAST_BREAK = 6;

/**
 * Puts episodes in order and joins neighbours of one period where the break (the pump at rest, a gap) is shorter than both; of two that
 * overlap with unlike periods the weaker goes when it is far smaller.
 */
export function joinEpisodes(episodes: readonly OscillationEpisode[]): OscillationEpisode[] {
  const kept = [...episodes].filter((e) => !episodes.some((other) => drowns(other, e))).sort((a, b) => a.from - b.from);
  const joined: OscillationEpisode[] = [];
  for (const episode of kept) {
    const at = joined.findLastIndex((other) => belongTogether(other, episode));
    if (at < 0) joined.push(episode);
    else joined[at] = together(joined[at], episode);
  }
  return joined;
}

function belongTogether(a: OscillationEpisode, b: OscillationEpisode): boolean {
  const ratio = a.period.value / b.period.value;
  const pause = b.from - a.to;
  const shorter = Math.min(a.to - a.from, b.to - b.from);
  return ratio < SAME_PERIOD && 1 / ratio < SAME_PERIOD && pause <= Math.min(shorter, Math.max(60, LEAST_BREAK * a.period.value));
}

/** The longer one's numbers over both spans; its intervals stay honest because they are not narrowed. */
function together(a: OscillationEpisode, b: OscillationEpisode): OscillationEpisode {
  const [main, other] = a.to - a.from >= b.to - b.from ? [a, b] : [b, a];
  return {
    ...main,
    from: seconds(Math.min(a.from, b.from)),
    to: seconds(Math.max(a.to, b.to)),
    regularity: Math.max(main.regularity, other.regularity),
  };
}

/** Whether one stands over another so much that the other is its noise: half of it lies inside and it is under a fifth in size. */
function drowns(a: OscillationEpisode, b: OscillationEpisode): boolean {
  if (a === b) return false;
  const shared = Math.min(a.to, b.to) - Math.max(a.from, b.from);
  return shared > 0.5 * (b.to - b.from) && b.peakToPeak.value < 0.2 * a.peakToPeak.value;
}
