import fc from "fast-check";
import { expect, test } from "vitest";
import { joinEpisodes } from "../../../../analysis/detectors/oscillation/join-episodes";
import type { OscillationEpisode } from "../../../../shared/findings/finding";
import { seconds } from "../../../../shared/units/quantity";

const episode = fc
  .record({
    from: fc.integer({ min: 0, max: 4000 }),
    length: fc.integer({ min: 1, max: 900 }),
    period: fc.constantFrom(5, 5.5, 6.5, 40),
    size: fc.constantFrom(1, 4, 30),
  })
  .map(
    ({ from, length, period, size }) =>
      ({ from, to: from + length, period: { value: period }, peakToPeak: { value: size }, regularity: 2 }) as unknown as OscillationEpisode,
  );

/** The rule as it reads, every episode beside every other: the reference for the quick way. */
function joinedByTheRule(episodes: readonly OscillationEpisode[]): OscillationEpisode[] {
  const drowned = (e: OscillationEpisode) =>
    episodes.some(
      (o) =>
        o !== e && Math.min(o.to, e.to) - Math.max(o.from, e.from) > 0.5 * (e.to - e.from) && e.peakToPeak.value < 0.2 * o.peakToPeak.value,
    );
  const joined: OscillationEpisode[] = [];
  for (const e of episodes.filter((one) => !drowned(one)).sort((a, b) => a.from - b.from)) {
    const at = joined.findLastIndex((o) => {
      const ratio = o.period.value / e.period.value;
      const most = Math.min(o.to - o.from, e.to - e.from, Math.max(60, 6 * o.period.value));
      return ratio < 1.15 && 1 / ratio < 1.15 && e.from - o.to <= most;
    });
    if (at < 0) joined.push(e);
    else {
      const o = joined[at];
      const main = o.to - o.from >= e.to - e.from ? o : e;
      joined[at] = { ...main, from: seconds(Math.min(o.from, e.from)), to: seconds(Math.max(o.to, e.to)) };
    }
  }
  return joined;
}

test("episodes are joined by the rule, however many there are", () => {
  fc.assert(
    fc.property(fc.array(episode, { maxLength: 40 }), (episodes) => {
      expect(joinEpisodes(episodes)).toEqual(joinedByTheRule(episodes));
    }),
    { numRuns: 300 },
  );
});
