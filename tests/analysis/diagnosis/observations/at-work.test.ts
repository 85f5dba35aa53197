import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import { stretchesWhere, valuesIn } from "../../../../analysis/diagnosis/observations/at-work";
import { commonestGap, isRhythm } from "../../../../analysis/diagnosis/observations/rhythm";
import type { Trace } from "../../../../analysis/model/fit/trace";
import { SWITCHED } from "../../../builders/look-at";
import { gpm, psi, swing } from "../../../builders/outcomes";
import { noiseOf, seededRandom } from "../../../builders/signals";
import { running, type Worked, workedHours } from "../../../builders/worked-hours";

describe("stretches in which something holds", () => {
  const at = (times: readonly number[], least: number, holds: (i: number) => boolean) =>
    stretchesWhere({ times: Float64Array.from(times), interval: 1 } as unknown as Trace, least, holds).map(({ first, last }) => [
      first,
      last,
    ]);
  const second = Array.from({ length: 20 }, (_, i) => i);
  test("from first to last, at the ends of the record too, as long as asked and no shorter", () => {
    expect(at(second, 5, (i) => i <= 5 || i >= 14)).toEqual([[0, 5], [14, 19]]); // biome-ignore format: two stretches
    expect(at(second, 6, (i) => i <= 5 || i >= 13)).toEqual([[13, 19]]);
    expect(at(second, 1, () => false)).toEqual([]);
  });
  test("a gap of more than three intervals ends one", () => {
    expect(at([0, 1, 2, 5, 6, 7], 1, () => true)).toEqual([[0, 5]]);
    expect(at([0, 1, 2, 5.1, 6, 7], 1, () => true)).toEqual([[0, 2], [3, 5]]); // biome-ignore format: two stretches
  });
  test("their values, ends included, without what is missing", () => {
    expect(valuesIn([1, 2, Number.NaN, 4, 5], [{ first: 1, last: 3 }, { first: 4, last: 4 }])).toEqual([2, 4, 5]); // biome-ignore format: two stretches
  });
});

describe("rhythm", () => {
  test("times up to 1.3 apart are alike; the middle of the most of them is the gap", () => {
    expect(commonestGap([0, 100, 230, 700])).toEqual({ gap: 130, share: 2 / 3 });
    expect(commonestGap([0, 100, 231, 700])).toEqual({ gap: 100, share: 1 / 3 });
    expect(commonestGap([0, 10, 210, 420, 640])).toEqual({ gap: 210, share: 3 / 4 });
  });
  test("more than a quarter and 3 over their number", () => {
    expect(isRhythm(0.5, 12)).toBe(false);
    expect(isRhythm(0.51, 12)).toBe(true);
    expect(isRhythm(0.29, 100)).toBe(true);
    expect(isRhythm(0.27, 100)).toBe(false);
  });
});

describe("the answer to a draw (set pressure 52 psi)", () => {
  const look = (worked: Worked) => LOOKS["answer-to-draw"](workedHours(worked));
  /** Low from second a to second b of a run, in so many of the runs. */
  const low =
    (a: number, b: number, to = 44, runs = 12) =>
    (k: number, t: number) =>
      k - 300 >= a && k - 300 <= b && t < 600 * runs ? to : 52;
  test("short is over six hundredths under the set pressure, for 25 s of a run and more", () => {
    expect(look({ pressure: low(30, 55) })?.numbers).toEqual({ late: 300, ended: 0, setPressure: psi(52), times: 12 });
    expect(look({ pressure: low(30, 54) })?.numbers).toMatchObject({ late: 0, times: 0 });
    expect(look({ pressure: low(30, 90, 48.8) })?.level).toBe("late");
    expect(look({ pressure: low(30, 90, 48.95) })?.level).toBe("keeps-up");
  });
  test("the first fifteen seconds belong to the start", () => {
    expect(look({ pressure: low(0, 41) })?.numbers.times).toBe(12);
    expect(look({ pressure: low(0, 40) })?.numbers.times).toBe(0);
    expect(look({ pressure: (k) => (running(k) ? 52 : 44) })?.numbers.times).toBe(0);
  });
  test("late for 50 s each time and 100 s in all; a shorter one is a fall deeper than usual", () => {
    expect(look({ pressure: low(30, 80, 44, 2) })?.level).toBe("late");
    expect(look({ pressure: low(30, 79, 44, 2) })?.level).toBe("keeps-up");
    expect(look({ pressure: low(30, 79, 44, 12) })?.level).toBe("keeps-up");
    expect([129, 130].map((to) => look({ pressure: low(30, to, 44, 1) })?.level)).toEqual(["keeps-up", "late"]);
  });
  test("at its end where it ran at 96 % for as long as not, for 50 s in all", () => {
    const end = (speed: number, a: number, b: number, runs: number) =>
      look({ pressure: low(a, b, 44, runs), speed: (k) => (running(k) ? speed : 0) })?.level;
    expect(end(0.961, 30, 80, 1)).toBe("at-its-end");
    expect(end(0.961, 30, 79, 1)).toBe("keeps-up");
    expect(end(0.95, 30, 80, 12)).toBe("late");
    const half = (full: number) => look({ pressure: low(30, 129), speed: (k) => (k - 300 < 30 + full ? 1 : 0.8) });
    expect(half(50)?.level).toBe("at-its-end");
    expect(half(49)?.level).toBe("late");
    expect(half(25)?.numbers).toMatchObject({ late: expect.closeTo(12 * 99 * 0.75, 6), ended: expect.closeTo(12 * 99 * 0.25, 6) });
  });
  test("without speed: back while as much is drawn was late, back with the draw's end was the pump's limit", () => {
    const returning = (share: number) => look({ pressure: low(30, 90), speed: null, flow: (k) => (k - 300 <= 90 ? 10 : 10 * share) });
    expect(returning(0.81)).toMatchObject({ level: "late", numbers: { late: 720, ended: 0 } });
    expect(returning(0.79)).toMatchObject({ level: "at-its-end", numbers: { late: 0, ended: 720 } });
    // Low until the pump stopped: nothing shows that it would have come back.
    expect(look({ pressure: low(200, 299), speed: null })?.level).toBe("at-its-end");
  });
  test("not asked of a switch, at 13 s and more between samples, nor without pump, set pressure, or speed and flow", () => {
    expect(look({ pressure: low(30, 90), facts: SWITCHED })).toBeNull();
    expect(look({ pressure: low(30, 90), step: 12 })).not.toBeNull();
    expect(look({ pressure: low(30, 90), step: 15 })).toBeNull();
    expect(look({ pressure: low(30, 90), pumpKnown: false })).toBeNull();
    expect(look({ pressure: low(30, 90), facts: { setPressure: undefined } })).toBeNull();
    expect(look({ pressure: low(30, 90), speed: null, flow: null })).toBeNull();
    expect(look({ pressure: low(30, 90), flow: null })?.level).toBe("late");
  });
});

describe("the lowest pressure that a run holds for half a minute", () => {
  const look = (worked: Worked) => LOOKS["sunk-pressure"](workedHours(worked));
  const held =
    (s: number, to: number, from = 400) =>
    (k: number) =>
      k >= from && k <= from + s ? to : 52;
  test("nought under a tenth of what is to be held, gone under 0.35, low under 0.85", () => {
    expect([5.1, 5.3].map((p) => look({ pressure: held(40, p) })?.level)).toEqual(["nought", "gone"]);
    expect([18.1, 18.3, 44.1, 44.3].map((p) => look({ pressure: held(40, p) })?.level)).toEqual(["gone", "low", "low", "held"]);
    expect(look({ pressure: held(40, 26) })?.numbers).toEqual({
      lowest: expect.closeTo(psi(26), -1),
      held: psi(52),
      ratio: expect.closeTo(0.5, 6),
    });
  });
  test("half a minute, in one run", () => {
    expect(look({ pressure: held(30, 5) })?.level).toBe("nought");
    expect(look({ pressure: held(29, 5) })?.level).toBe("held");
    // Sixteen seconds before the stop and the rest after it are not held by the pump.
    expect(look({ pressure: (k) => (k >= 584 || k < 100 ? 5 : 52) })?.level).toBe("held");
    expect(look({ pressure: (k) => (k >= 300 && k <= 330 ? 5 : 52) })?.level).toBe("nought");
  });
  test("the highest of the half minute counts: one reading above it breaks it, a missing one ends it", () => {
    expect(look({ pressure: (k) => (k === 415 ? 50 : held(29, 5)(k)) })?.level).toBe("held");
    expect(look({ pressure: (k) => (k === 420 ? Number.NaN : held(40, 5)(k)) })?.level).toBe("held");
    expect(look({ pressure: (k) => (k === 420 ? Number.NaN : held(60, 5)(k)) })?.level).toBe("nought");
  });
  test("a switch is to hold its cut-in", () => {
    expect(look({ pressure: held(40, 33), facts: SWITCHED })?.numbers.held).toBe(psi(40));
    expect(look({ pressure: held(40, 33), facts: { ...SWITCHED, cutIn: undefined } })).toBeNull();
  });
  test("without a pump state by all of the record: so low a pressure makes any pump start; not without a set pressure", () => {
    expect(look({ pressure: held(40, 5), pumpKnown: false })?.level).toBe("nought");
    expect(look({ pressure: held(20, 5), pumpKnown: false })?.level).toBe("held");
    expect(look({ pressure: held(40, 5), facts: { setPressure: undefined } })).toBeNull();
  });
});

describe("scatter of the running time against that at rest", () => {
  const noise = noiseOf(7200, seededRandom(12));
  const look = (atRest: number, inRun: number, worked: Partial<Worked> = {}) =>
    LOOKS.roughness(workedHours({ pressure: (k, t) => 52 + (running(k) ? inRun : atRest) * noise[t], ...worked }));
  test("rougher: over three times, and over 0.0015 of what is held (0.078 psi), twice that from 2.2 s a sample on", () => {
    expect([1.9, 4].map((times) => look(0.2, 0.2 * times)?.level)).toEqual(["alike", "rougher"]);
    expect([0.04, 0.1].map((psis) => look(0.01, psis)?.level)).toEqual(["alike", "rougher"]);
    expect([0.08, 0.2].map((psis) => look(0.01, psis, { step: 4 })?.level)).toEqual(["alike", "rougher"]);
    const { numbers } = look(0.2, 0.6)!;
    expect(Number(numbers.rest) / psi(0.2)).toBeCloseTo(1, 0);
    expect(Number(numbers.run) / psi(0.6)).toBeGreaterThan(0.9);
    expect(numbers.floor).toBe(numbers.rest);
    expect(Number(numbers.share)).toBeCloseTo(Number(numbers.run) / psi(52), 9);
  });
  test("no more than its steps make by themselves: step over the root of 12", () => {
    const stepped = (k: number, t: number) => Math.round(52 + (running(k) ? 0.5 : 0) * noise[t]);
    const seen = LOOKS.roughness(workedHours({ pressure: (k, t) => stepped(k, t) + (k % 50 === 0 ? (k / 50) % 7 : 0) }))!;
    expect(Number(seen.numbers.floor)).toBeCloseTo(psi(1) / Math.sqrt(12), -1);
  });
  test("what happens in the first quarter of a minute of a run is the start's", () => {
    expect(look(0.1, 0.1, { pressure: (k, t) => 52 + (k >= 300 && k < 315 ? 3 : 0.1) * noise[t] })?.level).toBe("alike");
  });
  test("by eight blocks of either; a switch is held against its cut-out", () => {
    expect(look(0.1, 1, { step: 60 })).toBeNull();
    expect(Number(look(0.1, 1, { facts: SWITCHED })?.numbers.share)).toBeCloseTo(Number(look(0.1, 1)?.numbers.run) / psi(60), 6);
    expect(look(0.1, 1, { facts: { ...SWITCHED, cutOut: undefined } })).toBeNull();
    expect(look(0.1, 1, { facts: { setPressure: undefined } })).toBeNull();
    expect(look(0.1, 1, { pumpKnown: false })).toBeNull();
  });
  test("readings over 8 s apart differ by errors of the loop: they must scatter as a swing of the limit does, its half over root two", () => {
    const at = (step: number, psis: number, facts = {}) => look(0.1, psis, { step, facts })?.level;
    const limits = (peakToPeak: string) => ({ limits: { oscillationPeakToPeak: peakToPeak } });
    expect([at(8, 0.6), at(10, 0.6), at(10, 2)]).toEqual(["rougher", "alike", "rougher"]);
    expect([at(10, 0.6, limits("1 psi")), at(10, 0.25, limits("1 psi"))]).toEqual(["rougher", "alike"]); // 0.35 psi
  });
  test("where a swing was found it is asked of by itself; starts and stops are none", () => {
    const seen = (by: "loop" | "cycling") => {
      const sight = workedHours({ pressure: (k, t) => 52 + (running(k) ? 1 : 0.1) * noise[t] });
      return LOOKS.roughness({ ...sight, outcomes: [swing(30, 5, by)] });
    };
    expect(seen("loop")).toBeNull();
    expect(seen("cycling")?.level).toBe("rougher");
  });
});

describe("the flow while the pressure is short (rated for 40 gpm, 52 psi)", () => {
  type Short = Partial<Worked> & { readonly b?: number; readonly runs?: number; readonly to?: number };
  /** Short from second 30 to b of so many runs, with such a flow then, and 12 gpm at other times. */
  const look = (flow: number, { b = 90, runs = 12, to = 44, ...worked }: Short = {}) =>
    LOOKS["flow-when-short"](
      workedHours({
        pressure: (k, t) => (k >= 330 && k - 300 <= b && t < 600 * runs ? to : 52),
        flow: (k) => (k >= 330 && k - 300 <= b ? flow : 12),
        ...worked,
      }),
    );
  test("next to nothing under a twentieth of the rating, all from nine tenths on", () => {
    expect([1.9, 2.1, 35.8, 36.2].map((flow) => look(flow)?.level)).toEqual(["none", "some", "some", "all"]);
    expect(Number(look(20)?.numbers.ratio)).toBeCloseTo(0.5, 6);
    expect(Number(look(20)?.numbers.flow) / gpm(20)).toBeCloseTo(1, 6);
  });
  test("without a rating twice the most that flowed while the pressure was held", () => {
    const facts = { pumpRatedFlow: undefined };
    expect([21.4, 21.8].map((flow) => look(flow, { facts })?.level)).toEqual(["some", "all"]);
    // what flows at rest, in the first quarter of a minute of a run, or while it is short is no flow of a held pressure
    const elsewhere = (k: number) => (k >= 330 && k <= 390 ? 21.4 : k > 316 ? 12 : 40);
    expect(Number(look(0, { facts, flow: elsewhere })?.numbers.ratio)).toBeCloseTo(21.4 / 24, 6);
  });
  test("asked where it was short for 50 s in all, each time for 25 s at least", () => {
    expect(look(20, { b: 55, runs: 2 })?.level).toBe("some");
    expect(look(20, { b: 55, runs: 1 })).toBeNull();
    expect(look(20, { b: 54 })).toBeNull();
    expect([48.8, 48.95].map((to) => look(20, { to }) !== null)).toEqual([true, false]);
  });
  test("with a switch under its cut-in; not without what is to be held, without a meter, nor at over a minute a sample", () => {
    expect(look(20, { to: 37, facts: SWITCHED })?.level).toBe("some");
    expect(look(20, { to: 38, facts: SWITCHED })).toBeNull();
    expect(look(20, { facts: { setPressure: undefined } })).toBeNull();
    expect(look(20, { flow: null })).toBeNull();
    expect(look(20, { pumpKnown: false })).toBeNull();
    // it sinks while so much is drawn: one level would be held on purpose
    const sinking = (k: number) => (k >= 330 && k <= 550 ? 48 - (k - 330) / 15 : 52);
    expect(look(20, { b: 250, step: 60, pressure: sinking })?.level).toBe("some");
    expect(look(20, { b: 250, step: 75, pressure: sinking })).toBeNull();
  });
});
