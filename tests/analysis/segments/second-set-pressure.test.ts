import { describe, expect, test } from "vitest";
import { tracking } from "../../../analysis/detectors/tracking";
import { findSecondSetPressure } from "../../../analysis/segments/second-set-pressure";
import type { PumpState } from "../../../shared/findings/segment";
import { US_UNITS } from "../../../shared/units/unit-choice";
import { sayFinding } from "../../../shared/wording/finding";
import { levelAt } from "../../builders/look-at";
import { channelOf, psi, pumpWith, recordOf, segmentsWith, siteOf } from "../../builders/outcomes";

/** A drive as drawn: 5 min run, 5 min rest with a fall of 5 psi, at what it is set to at that time, for two days. Invented. */
const STEP = 5; // s
const [RUN, CYCLE] = [300, 600]; // s
const HOURS = 48;
const HOUR = 3600;
const pumpFor = (hours: number) =>
  pumpWith(Array.from({ length: (hours * HOUR) / CYCLE - 1 }, (_, i) => [i * CYCLE, RUN] as const)) as PumpState;
const pressureOf = (setAt: (t: number) => number, hours = HOURS) =>
  channelOf(
    "pressure",
    "gaugePressure",
    Array.from({ length: (hours * HOUR) / STEP }, (_, i) => i * STEP).map((t) => {
      const rest = (t % CYCLE) - RUN;
      return psi(setAt(t) - (rest > 0 ? (5 * rest) / RUN : 0));
    }),
    STEP,
  );
const found = (setAt: (t: number) => number, hours = HOURS) => findSecondSetPressure(pressureOf(setAt, hours), pumpFor(hours));
const atNight = (t: number) => (t / HOUR) % 24 >= 22 || (t / HOUR) % 24 < 5;
const setback = (t: number) => (atNight(t) ? 44 : 52);

describe("a second set pressure by the clock", () => {
  test("is found with its level and its hours, night after night", () => {
    const second = found(setback)!;
    expect(second.usual / psi(1)).toBeCloseTo(52, 1);
    expect(second.other / psi(1)).toBeCloseTo(44, 1);
    expect(second.times.map(({ from, to }) => [from / HOUR, to / HOUR])).toEqual(
      [
        [0, 5],
        [22, 29],
        [46, 48],
      ].map((span) => span.map((hour) => expect.closeTo(hour, 0))),
    );
  });
  test("a single night will do", () => {
    expect(found((t) => (t > 8 * HOUR && t < 12 * HOUR ? 44 : 52), 20)?.times).toHaveLength(1);
  });
  test("none where one pressure is held, the reading drifts, or the change comes at another hour each day", () => {
    expect(found(() => 52)).toBeNull();
    expect(found((t) => 52 - (12 * t) / (HOURS * HOUR))).toBeNull();
    expect(found((t) => ((t > 2 * HOUR && t < 5 * HOUR) || (t > 38 * HOUR && t < 42 * HOUR) ? 44 : 52))).toBeNull();
  });
  test("none where a reading stands still at another level: a frozen sensor is no set pressure", () => {
    const still = pressureOf(() => 52);
    for (let i = (10 * HOUR) / STEP; i < (14 * HOUR) / STEP; i++) still.values[i] = psi(46);
    expect(findSecondSetPressure(still, pumpFor(HOURS))).toBeNull();
  });
  test("none where the pump is at its end for hours: it goes along its curve and does not stop", () => {
    const busy = (t: number) => t > 8 * HOUR && t < 12 * HOUR;
    const runs = Array.from({ length: (HOURS * HOUR) / CYCLE - 1 }, (_, i) => i * CYCLE).filter((from) => !busy(from));
    const pump = pumpWith(
      runs.map((from) => (from === 8 * HOUR ? ([from, 4 * HOUR + RUN] as const) : ([from, RUN] as const))),
    ) as PumpState;
    expect(
      findSecondSetPressure(
        pressureOf((t) => (busy(t) ? 44 : 52)),
        pump,
      ),
    ).toBeNull();
  });
});

describe("a drive with a night setback is judged by what it was set to", () => {
  const record = recordOf([pressureOf(setback)], HOURS);
  const segments = segmentsWith(pumpFor(HOURS));
  const outcome = tracking.detect({ record, faults: [], segments, site: siteOf() });
  const finding = outcome.state === "found" ? outcome.finding : null;
  test("it keeps to its set pressure, and the page says what it held by night", () => {
    expect(finding!.shareWithinBand).toBeGreaterThan(0.97);
    expect(sayFinding(finding!, US_UNITS).text).toMatch(/held 44(\.\d)?\spsi instead.*night setback/);
  });
  test("nothing is said to be low by it", () => {
    const seen = { record, pump: pumpFor(HOURS), outcomes: [outcome] };
    expect(levelAt("held-pressure", seen)).toBe("at-set");
    expect(levelAt("sunk-pressure", seen)).toBe("held");
    expect(levelAt("low-times", seen)).toBe("brief");
    expect(levelAt("usual-pressure", seen)).toBe("in-band");
  });
});
