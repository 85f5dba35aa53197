import { describe, expect, test } from "vitest";
import { LOOKS, observeAll } from "../../../../analysis/diagnosis/observations";
import { rank } from "../../../../analysis/diagnosis/rank";
import { channelOf, psi, pumpWith, recordOf, SITE_AS_WRITTEN, segmentsWith, siteOf } from "../../../builders/outcomes";

const HOURS = 8;
/** Eight hours of a drive that rests and runs for 300 s each: from 52 psi down to 45 at rest, held at 52 in a run; `off` is what the reading has too much. */
function sightOf(off: (t: number, inRun: boolean) => number) {
  const pressure = Array.from({ length: HOURS * 720 }, (_, i) => {
    const [t, k] = [i * 5, (i * 5) % 600];
    return psi((k < 300 ? 52 - (7 * k) / 300 : Math.min(52, 45 + (k - 300))) + off(t, k >= 300));
  });
  return {
    outcomes: [],
    segments: segmentsWith(pumpWith(Array.from({ length: HOURS * 6 }, (_, i) => [i * 600 + 300, 300] as const))),
    site: siteOf(SITE_AS_WRITTEN),
    record: recordOf([channelOf("pressure", "gaugePressure", pressure, 5)], HOURS),
  };
}
const level = (off: (t: number, inRun: boolean) => number) => LOOKS["levels-walk"](sightOf(off))?.level;
const slope = (total: number) => (t: number) => (total * t) / (HOURS * 3600);

describe("start, stop and held level", () => {
  test("that walk together are the reading's; how far is that from the first quarter to the last", () => {
    const seen = LOOKS["levels-walk"](sightOf(slope(-8)));
    expect(seen?.level).toBe("walk");
    expect(Number(seen?.numbers.change) / psi(1)).toBeCloseTo(-6, 0);
    expect(level(slope(8))).toBe("walk");
  });
  test("that stay, or walk by less than a twelfth, stay", () => {
    expect(level(() => 0)).toBe("stay");
    expect(level(slope(-4))).toBe("stay");
  });
  test("a setback moves all three in one step: that is no walk", () => {
    expect(level((t) => (t > HOURS * 1800 ? -8 : 0))).toBe("stay");
  });
  test("what is held sinks and what wakes the pump does not: a walk of one is none of the reading", () => {
    expect(level((t, inRun) => (inRun && t % 600 > 400 ? slope(-8)(t) : 0))).toBe("stay");
  });
  test("puts a wrong reading first, and what compares one hour with another is not asked", () => {
    const seen = observeAll(sightOf(slope(-8)));
    expect(rank(seen)[0].id).toBe("sensor-scaling-wrong");
    expect(seen.filter(({ id }) => id === "usual-pressure" || id === "low-times").every((o) => o.level === null)).toBe(true);
    const sound = rank(observeAll(sightOf(() => 0))).map(({ id }) => id);
    expect(sound.slice(0, 3)).not.toContain("sensor-scaling-wrong");
  });
});
