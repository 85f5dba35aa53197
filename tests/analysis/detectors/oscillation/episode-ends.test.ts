import { describe, expect, test } from "vitest";
import { episodeSpans, type Group, groupCandidates } from "../../../../analysis/detectors/oscillation/episode-span";
import { type Candidate, searchStretch } from "../../../../analysis/detectors/oscillation/window-search";
import type { EvenStretch } from "../../../../analysis/segments/even-stretch";
import { seconds } from "../../../../shared/units/quantity";
import { noiseOf, seededRandom } from "../../../builders/signals";

const TURN = 2 * Math.PI;
/** A sine of 20 s and 5 kPa in noise of 0.5 kPa, from and to. */
function drawn(pieces: readonly (readonly [number, number])[], count = 7200, period = 20): EvenStretch {
  const noise = noiseOf(count, seededRandom(17));
  const within = (i: number) => pieces.some(([a, b]) => i >= a && i < b);
  const values = noise.map((v, i) => 4e5 + 500 * v + (within(i) ? 5e3 * Math.sin((TURN * i) / period) : 0));
  return { from: seconds(0), to: seconds(count - 1), step: 1, values, first: 0, end: count };
}
const candidate = (from: number, to: number, period: number): Candidate => ({
  from,
  to,
  period,
  amplitude: 5e3,
  ratio: 3000,
  noiseDensity: 25e4,
  carriedBy: 20,
  logChance: -90,
  regularity: 3,
  cycles: (to - from) / period,
});
const groupOver = (from: number, to: number, period = 20): Group => ({ from, to, best: candidate(from, to, period), noiseDensity: 25e4 });

describe("the ends of an episode", () => {
  test("are sought eight waves beyond the windows that showed it, or a tenth of them", () => {
    const [short] = episodeSpans(drawn([[1000, 6000]]), groupOver(3000, 3400));
    expect(Math.abs(short.from - (3000 - 160))).toBeLessThanOrEqual(20);
    expect(Math.abs(short.to - (3400 + 160))).toBeLessThanOrEqual(20);
    const [long] = episodeSpans(drawn([[1000, 6000]]), groupOver(2000, 5000));
    expect(Math.abs(long.from - (2000 - 300))).toBeLessThanOrEqual(20);
    expect(Math.abs(long.to - (5000 + 300))).toBeLessThanOrEqual(20);
  });
  test("are those of the stretch only where the wave is there in its first or last two", () => {
    const [inside] = episodeSpans(drawn([[60, 1530]], 1600), groupOver(60, 1530));
    expect(Math.abs(inside.from - 60)).toBeLessThanOrEqual(10);
    expect(Math.abs(inside.to - 1530)).toBeLessThanOrEqual(20);
    expect(inside.unsure).toBeGreaterThan(20);
    const [whole] = episodeSpans(drawn([[0, 1600]], 1600), groupOver(60, 1530));
    expect(whole).toEqual({ from: 0, to: 1599, unsure: 0 });
    const [open] = episodeSpans(drawn([[0, 1200]], 1600), groupOver(60, 1130));
    expect(open.from).toBe(0);
    expect(open.unsure).toBeCloseTo(inside.unsure / 2, 0);
  });
  test("do not move when the windows read the period a hundredth off", () => {
    const [episode, ...others] = episodeSpans(drawn([[2000, 3500]]), groupOver(2100, 3400, 20.2));
    expect(others).toEqual([]);
    expect(Math.abs(episode.from - 2000)).toBeLessThanOrEqual(21);
    expect(Math.abs(episode.to - 3500)).toBeLessThanOrEqual(21);
  });
  test("a break of ten waves within one group makes two of it", () => {
    const both = episodeSpans(drawn([[1000, 2000], [2200, 3000]]), groupOver(1000, 3000)); // biome-ignore format: pieces
    expect(both).toHaveLength(2);
    expect(Math.abs(both[0].to - 2000)).toBeLessThanOrEqual(40);
    expect(Math.abs(both[1].from - 2200)).toBeLessThanOrEqual(40);
  });
  test("five waves are an episode, four are not", () => {
    expect(episodeSpans(drawn([[1000, 1120]]), groupOver(1000, 1120))).toHaveLength(1);
    expect(episodeSpans(drawn([[1000, 1070]]), groupOver(1000, 1070))).toEqual([]);
  });
});

describe("groups", () => {
  test("that touch backward in time are one; a harmonic that ends where the wave begins is another", () => {
    const before = { ...candidate(100, 200, 10), logChance: -20 };
    expect(groupCandidates([candidate(200, 300, 10), before])).toMatchObject([{ from: 100, to: 300 }]);
    expect(groupCandidates([candidate(200, 300, 30), { ...before, period: 15 }])).toHaveLength(2);
    expect(groupCandidates([candidate(200, 300, 30), { ...before, period: 15, to: 201 }])).toHaveLength(1);
  });
});

describe("the windows of the search", () => {
  const LIMITS = { leastAmplitude: 700, logLevel: Math.log(0.001 / 7200) };
  const found = (stretch: EvenStretch) => searchStretch(stretch, LIMITS);
  const lengths = (all: readonly Candidate[]) => [...new Set(all.map(({ from, to }) => to - from))].sort((a, b) => a - b);
  test("short ones of 64 samples are looked at where the log is finest, and nowhere else", () => {
    expect(lengths(found(drawn([[3000, 3064]], 7200, 6)))).toContain(63);
    expect(lengths(found(drawn([[3000, 3060]], 600, 15)))).not.toContain(2 * 63);
    expect(lengths(found(drawn([[0, 7200]], 7200, 240)))).not.toContain(16 * 63);
  });
  test("the last lies against the end: a wave in its last second is in it", () => {
    const last = found(drawn([[7000, 7200]], 7200, 8)).reduce((most, { to }) => Math.max(most, to), 0);
    expect(last).toBe(7199);
    expect(found(drawn([[0, 200]], 7200, 8)).reduce((least, { from }) => Math.min(least, from), 9e9)).toBe(0);
  });
  test("what lies well inside longer ones with the same wave is not told again by shorter ones", () => {
    const all = found(drawn([[0, 7200]]));
    const [longest, ...shorter] = lengths(all).reverse();
    expect(longest).toBe(127 * 4); // 25 waves of 20 s: the slowest rate with four samples a wave
    const inside = all.filter(({ from, to }) => shorter.includes(to - from) && from > longest && to < 7199 - longest);
    expect(inside).toEqual([]);
  });
});
