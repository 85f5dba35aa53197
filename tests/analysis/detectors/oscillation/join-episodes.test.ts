import fc from "fast-check";
import { expect, test } from "vitest";
import { joinEpisodes } from "../../../../analysis/detectors/oscillation/join-episodes";
import type { OscillationEpisode } from "../../../../shared/findings/finding";
import type { Span } from "../../../../shared/findings/span";
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

const stretch = fc
  .tuple(fc.integer({ min: 0, max: 4000 }), fc.integer({ min: 1, max: 2000 }))
  .map(([from, length]) => ({ from: seconds(from), to: seconds(from + length) }));

/** The rule as it reads, every episode beside every other: the reference for the quick way. */
function joinedByTheRule(episodes: readonly OscillationEpisode[], seen: readonly Span[]): OscillationEpisode[] {
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
      const watched = e.from - o.to > 6 * o.period.value && seen.some(({ from, to }) => from <= o.to && e.from <= to);
      return ratio < 1.15 && 1 / ratio < 1.15 && e.from - o.to <= most && !watched;
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
    fc.property(fc.array(episode, { maxLength: 40 }), fc.array(stretch, { maxLength: 4 }), (episodes, seen) => {
      expect(joinEpisodes(episodes, seen)).toEqual(joinedByTheRule(episodes, seen));
    }),
    { numRuns: 300 },
  );
});

test("a minute's break in quick waves ends an episode where it was watched, and none where the pump was at rest", () => {
  const wave = (from: number, to: number) =>
    ({ from, to, period: { value: 5 }, peakToPeak: { value: 1 }, regularity: 2 }) as unknown as OscillationEpisode;
  const span = (from: number, to: number) => ({ from: seconds(from), to: seconds(to) });
  const two = [wave(0, 100), wave(150, 300)];
  expect(joinEpisodes(two, [span(0, 300)])).toHaveLength(2);
  expect(joinEpisodes(two, [span(0, 110), span(140, 300)])).toHaveLength(1);
});
