import { describe, expect, test } from "vitest";
import { episodeSpans, groupCandidates } from "../../../../analysis/detectors/oscillation/episode-span";
import { type Candidate, searchStretch } from "../../../../analysis/detectors/oscillation/window-search";
import type { EvenStretch } from "../../../../analysis/segments/even-stretch";
import { seconds } from "../../../../shared/units/quantity";
import { noiseOf, seededRandom } from "../../../builders/signals";

const candidate = (from: number, to: number, period: number, change: Partial<Candidate> = {}): Candidate => ({
  from,
  to,
  period,
  amplitude: 1,
  ratio: 50,
  noiseDensity: 2,
  carriedBy: 20,
  logChance: -30,
  regularity: 3,
  cycles: (to - from) / period,
  ...change,
});
const spans = (all: readonly Candidate[]) => groupCandidates(all).map(({ from, to, best }) => [from, to, best.period]);

describe("windows of one wave", () => {
  test("of nearly one period that hang together become one group, around the surest", () => {
    const group = groupCandidates([
      candidate(0, 100, 10),
      candidate(80, 200, 11, { logChance: -50, noiseDensity: 4 }),
      candidate(200, 300, 10.5),
    ]);
    expect(group).toHaveLength(1);
    expect(group[0]).toMatchObject({ from: 0, to: 300, best: { period: 11 } });
    expect(group[0].noiseDensity).toBeCloseTo((2 + 4 + 2) / 3, 12);
  });
  test("with a break between them they are two", () => expect(spans([candidate(0, 100, 10), candidate(101, 200, 10, { logChance: -50 })])).toEqual([[101, 200, 10], [0, 100, 10]])); // biome-ignore format: groups
  test("periods over 1.13 apart are two waves", () => {
    expect(spans([candidate(0, 100, 10), candidate(0, 100, 11.2)])).toHaveLength(1);
    expect(spans([candidate(0, 100, 10), candidate(0, 100, 11.4)])).toHaveLength(2);
  });
  test("a harmonic up to the fifth, or a multiple, is the stronger wave's, where they are at one time", () => {
    const strong = candidate(0, 100, 30, { logChance: -90 });
    for (const period of [30 / 2, 30 / 3, 30 / 5, 60, 150, 15.8])
      expect(spans([strong, candidate(20, 90, period)]), String(period)).toHaveLength(1);
    for (const period of [30 / 6, 16.1, 180, 22]) expect(spans([strong, candidate(20, 90, period)]), String(period)).toHaveLength(2);
    expect(spans([strong, candidate(100, 190, 15)])).toHaveLength(2);
  });
});

/** Two hours at a second: noise of 1 kPa, with a sine of 20 s and 5 kPa from and to. */
function drawn(pieces: readonly (readonly [number, number])[], period = 20, count = 7200): EvenStretch {
  const noise = noiseOf(count, seededRandom(17));
  const values = noise.map(
    (v, i) => 4e5 + 1e3 * v + (pieces.some(([a, b]) => i >= a && i < b) ? 5e3 * Math.sin((2 * Math.PI * i) / period) : 0),
  );
  return { from: seconds(0), to: seconds(count - 1), step: 1, values, first: 0, end: count };
}
const LIMITS = { leastAmplitude: 700, logLevel: Math.log(0.001 / 7200) };
const found = (stretch: EvenStretch) => groupCandidates(searchStretch(stretch, LIMITS)).flatMap((group) => episodeSpans(stretch, group));

describe("where a wave was", () => {
  test("from its first to its last wave, within two", () => {
    const [episode, ...others] = found(drawn([[2000, 3500]]));
    expect(others).toEqual([]);
    expect(Math.abs(episode.from - 2000)).toBeLessThan(40);
    expect(Math.abs(episode.to - 3500)).toBeLessThan(40);
    expect(episode.unsure).toBeGreaterThan(0);
    expect(episode.unsure).toBeLessThan(4 * 20);
  });
  test("to the very ends where the stretch begins and ends with it; nothing is unsure there", () => {
    expect(found(drawn([[0, 7200]]))).toEqual([{ from: 0, to: 7199, unsure: 0 }]);
  });
  test("a long break makes two", () => {
    const all = found(drawn([[500, 2000], [4000, 6000]])).sort((a, b) => a.from - b.from); // biome-ignore format: pieces
    expect(all).toHaveLength(2);
    expect(Math.abs(all[0].to - 2000)).toBeLessThan(60);
    expect(Math.abs(all[1].from - 4000)).toBeLessThan(60);
  });
  test("noise holds none", () => expect(found(drawn([]))).toEqual([]));
});

describe("the search", () => {
  test.each([8, 20, 61, 240])("finds a period of %d s with its size, at whatever rate that takes", (period) => {
    const best = searchStretch(drawn([[0, 7200]], period), LIMITS).sort((a, b) => a.logChance - b.logChance)[0];
    expect(best.period / period).toBeCloseTo(1, 1);
    expect(best.amplitude / 5e3).toBeGreaterThan(0.85);
    expect(best.amplitude / 5e3).toBeLessThan(1.15);
    // White noise of 1 kPa at a second has a density of 1e6 Pa^2 s.
    expect(best.noiseDensity).toBeGreaterThan(1e5);
    expect(best.noiseDensity).toBeLessThan(1e7);
  });
  test("a wave under the least size, or four waves in all, is not claimed", () => {
    expect(searchStretch(drawn([[0, 7200]]), { ...LIMITS, leastAmplitude: 6e3 })).toEqual([]);
    expect(searchStretch(drawn([[0, 60]], 20, 60), LIMITS)).toEqual([]);
  });
});
