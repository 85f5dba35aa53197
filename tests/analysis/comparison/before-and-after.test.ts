import { describe, expect, test } from "vitest";
import { compareVisits } from "../../../analysis/comparison/before-and-after";
import { matchDemand } from "../../../analysis/comparison/demand-match";
import { overallVerdict, verdictOf } from "../../../analysis/comparison/verdict";
import { type Random, seededRandom } from "../../../analysis/numerics/random";
import type { Verdict, VisitMeasures } from "../../../shared/findings/comparison";
import type { Measured } from "../../../shared/units/measured";
import { measuredVisit } from "../../builders/measured-visits";

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
      const m = starts(measuredVisit({ hours, startsPerHour: 12 }, random), measuredVisit({ hours, startsPerHour: 12 }, random));
      if (m.verdict === "better-but-not-met" || m.verdict === "met") better++;
      if (m.difference!.low <= 0 && m.difference!.high >= 0) covered++;
    }
    expect(better / pairs).toBeLessThanOrEqual(0.05);
    expect(covered / pairs).toBeGreaterThanOrEqual(0.9);
  }, 120_000);

  describe("without flow", () => {
    const unmetered = (hours: number, startsPerHour: number, random: Random, fromHour: number | null = 8): VisitMeasures => {
      const visit = measuredVisit({ hours, startsPerHour, fromHour: fromHour ?? 8 }, random);
      return { ...visit, beginsS: fromHour === null ? null : visit.beginsS, blocks: { ...visit.blocks, drawn: null } };
    };

    test("a busy half of a day against days leans to neither side, and is called a change in at most 5 % of pairs", () => {
      const random = seededRandom(31);
      const pairs = 160;
      let [claims, lean] = [0, 0];
      for (let i = 0; i < pairs; i++) {
        const days = [24, 36, 60][i % 3];
        const { verdict, difference } = starts(unmetered(12, 12, random), unmetered(days, 12, random));
        lean += difference!.value / 12 / pairs;
        if (verdict !== "no-change-shown") claims++;
      }
      expect(claims / pairs).toBeLessThanOrEqual(0.05);
      // Set against whole days the busy half lies a third above them, by the rhythm of the builder.
      expect(Math.abs(lean)).toBeLessThan(0.12);
    }, 120_000);

    test("the same hours of the day are set against each other, and a night against a day is not compared", () => {
      const random = seededRandom(32);
      // From 6:00 on: 12 hours, and 24.
      const same = compareVisits(unmetered(12, 12, random, 6), unmetered(24, 12, random, 6));
      expect(same).toMatchObject({ matchedBy: "hours", matchedShare: 24 / 36 });
      const night = starts(unmetered(8, 12, random, 22), unmetered(8, 12, random, 8));
      expect(night).toMatchObject({ verdict: "cannot-compare", because: "other-hours" });
    });

    test("without a clock whole days are compared, less than a day only with as long a piece", () => {
      const random = seededRandom(33);
      const days = compareVisits(unmetered(60, 12, random, null), unmetered(30, 12, random, null));
      expect(days).toMatchObject({ matchedBy: "days", matchedShare: (48 + 24) / 90 });
      expect(starts(unmetered(12, 12, random, null), unmetered(36, 12, random, null)).because).toBe("other-hours");
      expect(starts(unmetered(12, 12, random, null), unmetered(12, 12, random, null)).because).toBeNull();
    });

    test("a rate that is a third lower on a day each may be another use; on three weeks each it is shown", () => {
      const random = seededRandom(34);
      expect(starts(unmetered(24, 18, random), unmetered(24, 12, random)).verdict).toBe("no-change-shown");
      expect(starts(unmetered(504, 18, random), unmetered(504, 12, random)).verdict).toBe("better-but-not-met");
    });
  });

  test("a halved rate is shown on a week each, and is met only below the limit", () => {
    const random = seededRandom(5);
    const before = measuredVisit({ hours: 168, startsPerHour: 20 }, random);
    expect(starts(before, measuredVisit({ hours: 168, startsPerHour: 10 }, random)).verdict).toBe("better-but-not-met");
    expect(starts(before, measuredVisit({ hours: 168, startsPerHour: 0.8 }, random)).verdict).toBe("met");
    // A mean of three an hour with more than six in the busiest does not keep a limit of six in any hour.
    expect(starts(before, measuredVisit({ hours: 168, startsPerHour: 3 }, random)).verdict).toBe("better-but-not-met");
    expect(
      starts(measuredVisit({ hours: 168, startsPerHour: 10 }, random), measuredVisit({ hours: 168, startsPerHour: 20 }, random)).verdict,
    ).toBe("worse");
  });

  test("short cycles that are gone are met after a week, but not after a night: none seen is not none ever", () => {
    const random = seededRandom(6);
    const before = measuredVisit({ hours: 168, startsPerHour: 20, shortShare: 0.5 }, random);
    const short = (hours: number) =>
      compareVisits(before, measuredVisit({ hours, startsPerHour: 8 }, random)).measures.find((m) => m.id === "short-cycles-per-day")!;
    expect(short(168)).toMatchObject({ verdict: "met", after: { value: 0 } });
    expect(short(12).after!.high).toBeGreaterThan(3.689);
    expect(short(12).verdict).toBe("better-but-not-met");
  });

  test("an oscillation too fast for the slower logger is left out of the faster one", () => {
    const random = seededRandom(7);
    const fast = measuredVisit({ hours: 48, startsPerHour: 5, heights: [30000, 31000, 29000] }, random);
    const slow = measuredVisit({ hours: 48, startsPerHour: 5, intervalS: 10 }, random);
    const result = compareVisits(fast, slow);
    expect(result.hiddenBelowPeriodS).toBe(40);
    expect(result.measures.find((m) => m.id === "oscillation-height")!.before!.value).toBe(0);
  });

  test("waves that only the faster logger saw count neither in height nor in time", () => {
    const random = seededRandom(7);
    const fast = measuredVisit({ hours: 48, startsPerHour: 5, heights: [30000, 31000, 29000] }, random);
    const slow = measuredVisit({ hours: 48, startsPerHour: 5, intervalS: 10 }, random);
    const share = compareVisits(fast, slow).measures.find((m) => m.id === "oscillating-share")!;
    expect(share).toMatchObject({ verdict: "no-change-shown", before: { value: 0 } });
  });

  test("one spell of waves that did not come again is no change shown; many that stopped are met", () => {
    const random = seededRandom(9);
    const height = (heights: readonly number[]) =>
      compareVisits(
        measuredVisit({ hours: 72, startsPerHour: 5, heights }, random),
        measuredVisit({ hours: 72, startsPerHour: 5 }, random),
      ).measures.find((m) => m.id === "oscillation-height")!.verdict;
    expect(height([30000])).toBe("no-change-shown");
    expect(height(Array.from({ length: 30 }, (_, i) => 30000 + i))).toBe("met");
  });

  test("a log that cannot tell short runs is never better for showing none", () => {
    const random = seededRandom(10);
    const before = measuredVisit({ hours: 72, startsPerHour: 20, shortShare: 0.5 }, random);
    const blind = measuredVisit({ hours: 72, startsPerHour: 20 }, random);
    const after = { ...blind, blocks: { ...blind.blocks, shortCycles: null } };
    const short = compareVisits(before, after).measures.find((m) => m.id === "short-cycles-per-day")!;
    expect(short).toMatchObject({ verdict: "cannot-compare", because: "sampling-hides-it" });
  });

  test("runs read off the pressure by unlike loggers do not tell the share within the band", () => {
    const random = seededRandom(13);
    const [a, b] = [
      measuredVisit({ hours: 72, startsPerHour: 5 }, random),
      measuredVisit({ hours: 72, startsPerHour: 5, intervalS: 10 }, random),
    ];
    const share = (c: ReturnType<typeof compareVisits>) => c.measures.find((m) => m.id === "share-within-band")?.because;
    expect(share(compareVisits(a, b))).toBeNull();
    expect(share(compareVisits(a, { ...b, runsFromPressure: true }))).toBe("sampling-hides-it");
  });

  test("starts that a slower logger sees only by chance are not compared", () => {
    const random = seededRandom(14);
    const [fast, slow] = [
      measuredVisit({ hours: 72, startsPerHour: 20 }, random),
      measuredVisit({ hours: 72, startsPerHour: 20, intervalS: 10 }, random),
    ];
    const hiding = (share: number) => ({
      ...fast,
      slower: [{ atLeastS: 20, starts: fast.blocks.starts.map((n) => n * (1 - share)), shortCycles: fast.blocks.shortCycles }],
    });
    expect(starts(hiding(0.05), slow).because).toBeNull();
    expect(starts(hiding(0.4), slow)).toMatchObject({ verdict: "cannot-compare", because: "sampling-hides-it" });
  });

  test("a share is never less than none nor more than all, however short the record", () => {
    const random = seededRandom(15);
    const uneven = (): VisitMeasures => {
      const visit = measuredVisit({ hours: 12, startsPerHour: 5 }, random);
      return { ...visit, blocks: { ...visit.blocks, withinBand: visit.blocks.tracked.map((s, i) => (i % 4 === 0 ? 0.6 : 1) * s) } };
    };
    for (const { before, after } of compareVisits(uneven(), uneven()).measures.filter(({ id }) => id === "share-within-band"))
      for (const side of [before!, after!]) expect(side).toMatchObject({ low: expect.any(Number), high: 1 });
  });

  test("visits held against different limits are not compared on them", () => {
    const random = seededRandom(12);
    const [a, b] = [measuredVisit({ hours: 72, startsPerHour: 5 }, random), measuredVisit({ hours: 72, startsPerHour: 5 }, random)];
    const { measures } = compareVisits({ ...a, bandPa: 30000, shortLimitS: 90 }, b);
    for (const id of ["share-within-band", "short-cycles-per-day"])
      expect(measures.find((m) => m.id === id)).toMatchObject({ verdict: "cannot-compare", because: "limits-differ" });
  });

  test("what one visit cannot show is not compared", () => {
    const random = seededRandom(8);
    const blind = measuredVisit({ hours: 48, startsPerHour: 5 }, random);
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
  describe("and that of the visit follows the measures with a limit", () => {
    const is = (verdict: Verdict, difference: Measured | null = m(0, 1), limit: number | null = 1) =>
      ({ id: "starts-per-hour", verdict, limit, difference }) as const;
    test.each<readonly [Verdict, string, readonly Parameters<typeof overallVerdict>[0][number][]]>([
      ["worse", "one is worse, whatever the others are", [is("met", m(-6, 2)), is("worse", m(6, 2), null)]],
      ["met", "all are met", [is("met"), is("met", m(-6, 2))]],
      ["better-but-not-met", "one became better and another stands", [is("better-but-not-met", m(-6, 2)), is("no-change-shown")]],
      ["better-but-not-met", "one is met that was plainly not before", [is("met", m(-6, 2)), is("no-change-shown")]],
      ["no-change-shown", "what is met was met before", [is("met", m(-0.5, 1)), is("no-change-shown")]],
      ["no-change-shown", "only one without a limit became better", [is("better", m(-6, 2), null), is("no-change-shown")]],
      ["cannot-compare", "none could be compared", [is("cannot-compare", null)]],
    ])("%s where %s", (verdict, _where, measures) => expect(overallVerdict(measures)).toBe(verdict));
  });
});
