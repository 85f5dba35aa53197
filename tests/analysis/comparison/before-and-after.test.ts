import { describe, expect, test } from "vitest";
import { compareVisits } from "../../../analysis/comparison/before-and-after";
import { matchDemand } from "../../../analysis/comparison/demand-match";
import { overallVerdict, verdictOf } from "../../../analysis/comparison/verdict";
import { type Random, seededRandom } from "../../../analysis/numerics/random";
import type { VisitMeasures } from "../../../shared/findings/comparison";

const HOUR = 3600;

type Wanted = {
  readonly hours: number;
  readonly startsPerHour: number;
  readonly shortShare?: number;
  readonly heights?: readonly number[];
  readonly intervalS?: number;
};

/** Hours of a site with a daily rhythm and slow moods (log rate AR(1) 0.7, sd 0.4): truth is the mean rate. Demand follows the same rhythm. */
function visit({ hours, startsPerHour, shortShare = 0, heights = [], intervalS = 1 }: Wanted, random: Random): VisitMeasures {
  let mood = 0.4 * random.normal();
  const starts: number[] = [];
  const drawn: number[] = [];
  for (let h = 0; h < hours; h++) {
    mood = 0.7 * mood + 0.4 * Math.sqrt(1 - 0.49) * random.normal();
    const rhythm = Math.exp(0.8 * Math.sin((2 * Math.PI * (h - 8)) / 24) + mood - 0.08 - 0.17);
    starts.push(poisson(startsPerHour * rhythm, random));
    drawn.push(0.05 * rhythm);
  }
  const full = starts.map(() => HOUR);
  return {
    blockS: HOUR,
    blocks: {
      pumpKnown: full,
      starts,
      shortCycles: starts.map((n) => Math.round(n * shortShare)),
      lookedAt: full,
      oscillating: full.map(() => 0),
      tracked: full,
      withinBand: full.map(() => 0.95 * HOUR),
      drawn,
    },
    intervalS,
    episodes: heights.map((heightPa) => ({ periodS: 12, heightPa, lengthS: 600 })),
    driftsPa: [],
    limits: {
      "starts-per-hour": 6,
      "short-cycles-per-day": 0,
      "oscillating-share": null,
      "oscillation-height": 20000,
      "drift-at-steady-flow": 34000,
      "share-within-band": null,
    },
  };
}

function poisson(mean: number, random: Random): number {
  let n = 0;
  for (let p = random.next(); p > Math.exp(-mean); p *= random.next()) n++;
  return n;
}

const starts = (before: VisitMeasures, after: VisitMeasures) =>
  compareVisits(before, after).measures.find((m) => m.id === "starts-per-hour")!;

describe("before and after", () => {
  test("no change is called better in at most 5 % of pairs, and the interval covers zero in most", () => {
    const random = seededRandom(11);
    const pairs = 150;
    let better = 0;
    let covered = 0;
    for (let i = 0; i < pairs; i++) {
      const hours = [30, 72, 168][i % 3];
      const m = starts(visit({ hours, startsPerHour: 12 }, random), visit({ hours, startsPerHour: 12 }, random));
      if (m.verdict === "better-but-not-met" || m.verdict === "met") better++;
      if (m.difference!.low <= 0 && m.difference!.high >= 0) covered++;
    }
    expect(better / pairs).toBeLessThanOrEqual(0.05);
    expect(covered / pairs).toBeGreaterThanOrEqual(0.9);
  }, 120_000);

  test("a halved rate is shown on a week each, and is met only below the limit", () => {
    const random = seededRandom(5);
    const before = visit({ hours: 168, startsPerHour: 20 }, random);
    expect(starts(before, visit({ hours: 168, startsPerHour: 10 }, random)).verdict).toBe("better-but-not-met");
    expect(starts(before, visit({ hours: 168, startsPerHour: 3 }, random)).verdict).toBe("met");
    expect(starts(visit({ hours: 168, startsPerHour: 10 }, random), visit({ hours: 168, startsPerHour: 20 }, random)).verdict).toBe(
      "worse",
    );
  });

  test("short cycles that are gone are met after a week, but not after a night: none seen is not none ever", () => {
    const random = seededRandom(6);
    const before = visit({ hours: 168, startsPerHour: 20, shortShare: 0.5 }, random);
    const short = (hours: number) =>
      compareVisits(before, visit({ hours, startsPerHour: 8 }, random)).measures.find((m) => m.id === "short-cycles-per-day")!;
    expect(short(168)).toMatchObject({ verdict: "met", after: { value: 0 } });
    expect(short(12).after!.high).toBeGreaterThan(3.689);
    expect(short(12).verdict).toBe("better-but-not-met");
  });

  test("an oscillation too fast for the slower logger is left out of the faster one", () => {
    const random = seededRandom(7);
    const fast = visit({ hours: 48, startsPerHour: 5, heights: [30000, 31000, 29000] }, random);
    const slow = visit({ hours: 48, startsPerHour: 5, intervalS: 10 }, random);
    const result = compareVisits(fast, slow);
    expect(result.hiddenBelowPeriodS).toBe(40);
    expect(result.measures.find((m) => m.id === "oscillation-height")!.before!.value).toBe(0);
  });

  test("what one visit cannot show is not compared", () => {
    const random = seededRandom(8);
    const blind = visit({ hours: 48, startsPerHour: 5 }, random);
    const without = { ...blind, blocks: { ...blind.blocks, pumpKnown: blind.blocks.pumpKnown.map(() => 0) } };
    expect(starts(blind, without)).toMatchObject({ verdict: "cannot-compare", because: "no-pump-state", difference: null });
  });
});

test("demand matching weighs a busy week and a quiet one to one mix", () => {
  const match = matchDemand([0, 0, 1, 1], [0, 1, 1, 1])!;
  const mix = (drawn: number[], weights: readonly number[]) =>
    drawn.reduce((s, d, i) => s + d * weights[i], 0) / weights.reduce((s, w) => s + w, 0);
  expect(mix([0, 0, 1, 1], match.before!)).toBeCloseTo(5 / 8, 9); // pooled share of busy blocks
  expect(mix([0, 1, 1, 1], match.after!)).toBeCloseTo(5 / 8, 9);
});

describe("the verdict follows the limit", () => {
  const m = (value: number, half: number) => ({ value, low: value - half, high: value + half });
  test.each([
    ["met", m(4, 1), m(-6, 2), 6],
    ["better-but-not-met", m(8, 1), m(-6, 2), 6],
    ["no-change-shown", m(8, 1), m(-1, 2), 6],
    ["worse", m(8, 1), m(4, 2), 6],
    ["better", m(8, 1), m(-6, 2), null],
  ] as const)("%s", (verdict, after, difference, limit) => expect(verdictOf("starts-per-hour", after, difference, limit)).toBe(verdict));
  test("more is better for the share within the band", () =>
    expect(verdictOf("share-within-band", m(0.99, 0.005), m(0.2, 0.1), 0.95)).toBe("met"));
  test("the weakest measure with a limit decides", () =>
    expect(
      overallVerdict([
        { verdict: "met", limit: 1 },
        { verdict: "no-change-shown", limit: 1 },
        { verdict: "better", limit: null },
      ]),
    ).toBe("no-change-shown"));
});
