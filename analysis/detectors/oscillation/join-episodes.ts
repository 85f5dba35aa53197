import type { OscillationEpisode } from "../../../shared/findings/finding";
import type { Span } from "../../../shared/findings/span";
import { seconds } from "../../../shared/units/quantity";

const SAME_PERIOD = 1.15; // ratio of two periods up to which they are one wave
/** A break of fewer waves ends nothing; nor does one of less than a minute in which nobody looked, with the pump at rest or no samples. */
const LEAST_BREAK = 6;
const LEAST_UNSEEN = 60; // s

/**
 * Puts episodes in order and joins neighbours of one period where the break (the pump at rest, a gap) is shorter than both; of two that
 * overlap with unlike periods the weaker goes when it is far smaller.
 * @param seen where a wave was looked for
 */
export function joinEpisodes(episodes: readonly OscillationEpisode[], seen: readonly Span[]): OscillationEpisode[] {
  const joined: OscillationEpisode[] = [];
  /** Places in `joined` of those that a later episode may still join, rising. */
  let open: number[] = [];
  for (const episode of withoutDrowned([...episodes].sort((a, b) => a.from - b.from))) {
    open = open.filter((at) => episode.from - joined[at].to <= longestBreak(joined[at]));
    const at = open.findLast((place) => belongTogether(joined[place], episode, seen)) ?? joined.length;
    if (at === joined.length) open.push(at);
    joined[at] = at === joined.length ? episode : together(joined[at], episode);
  }
  return joined;
}

/** Only those that end after an episode begins and begin before it ends can drown it: found by the latest end so far. Episodes in order of their beginning. */
function withoutDrowned(episodes: readonly OscillationEpisode[]): OscillationEpisode[] {
  const latestEnd = new Float64Array(episodes.length);
  for (let i = 0; i < episodes.length; i++) latestEnd[i] = Math.max(i === 0 ? Number.NEGATIVE_INFINITY : latestEnd[i - 1], episodes[i].to);
  return episodes.filter((episode, i) => {
    for (let k = i + 1; k < episodes.length && episodes[k].from < episode.to; k++) if (drowns(episodes[k], episode)) return false;
    for (let k = i - 1; k >= 0 && latestEnd[k] > episode.from; k--) if (drowns(episodes[k], episode)) return false;
    return true;
  });
}

const longestBreak = ({ period }: OscillationEpisode): number => Math.max(LEAST_UNSEEN, LEAST_BREAK * period.value);

function belongTogether(a: OscillationEpisode, b: OscillationEpisode, seen: readonly Span[]): boolean {
  const ratio = a.period.value / b.period.value;
  const pause = b.from - a.to;
  if (pause > LEAST_BREAK * a.period.value && seen.some((span) => span.from <= a.to && b.from <= span.to)) return false;
  const shorter = Math.min(a.to - a.from, b.to - b.from);
  return ratio < SAME_PERIOD && 1 / ratio < SAME_PERIOD && pause <= Math.min(shorter, longestBreak(a));
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
