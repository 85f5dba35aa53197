import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import type { ObservationId } from "../../../../shared/findings/observation";
import { seconds } from "../../../../shared/units/quantity";
import { levelAt, lookAt, SWITCHED } from "../../../builders/look-at";
import { cyclesOf, psi, recordOf } from "../../../builders/outcomes";
import { seededRandom } from "../../../builders/signals";
import { type Worked, workedHours } from "../../../builders/worked-hours";

/** What can be asked of the pressure where nothing tells when the pump ran. */
const alone = (id: ObservationId, worked: Worked) => LOOKS[id](workedHours({ flow: null, speed: null, pumpKnown: false, ...worked }));

describe("how fast the pressure rises (set pressure 52 psi)", () => {
  /** Falls for 300 s from 52 to 44 psi, comes back as 1 - e^(-t/T): half of it after T ln 2. */
  const mended = (T: number) => (k: number) => (k < 300 ? 52 - (8 * k) / 300 : 52 - 8 * Math.exp(-(k - 300) / T));
  const at = (T: number, worked: Partial<Worked> = {}) => alone("rise-pace", { pressure: mended(T), ...worked });
  test("half of a first-order answer is there after T ln 2", () => {
    for (const T of [4, 20, 60]) expect(Math.abs(Number(at(T)?.numbers.half) - T * Math.LN2)).toBeLessThan(1);
  });
  test("sudden, prompt, late, slow: under 2.2, 8, 30 s and over", () => {
    expect([2, 6, 20, 60].map((T) => at(T)?.level)).toEqual(["sudden", "prompt", "late", "slow"]);
  });
  test("a missing reading or two in a rise are bridged", () => {
    const holed = (missing: number) => at(20, { pressure: (k) => (k > 310 && k <= 310 + missing ? Number.NaN : mended(20)(k)) });
    for (const missing of [1, 2]) expect(Math.abs(Number(holed(missing)?.numbers.half) - 20 * Math.LN2)).toBeLessThan(3);
    expect(holed(0)?.numbers.rises).toBe(holed(2)?.numbers.rises);
  });
  test("small rises beside the large ones do not count", () => {
    const ripple = (k: number) => mended(20)(k) + (k < 20 ? 1.8 * Math.sin(k) : 0);
    expect(at(20, { pressure: ripple })?.level).toBe("late");
  });
  test("not of a switch, nor at 3 s a sample, nor of rises too few", () => {
    expect(at(20, { facts: SWITCHED })).toBeNull();
    expect(at(20, { step: 3 })).toBeNull();
    expect(at(20, { pressure: (_, t) => (t > 3000 && t < 3060 ? 44 : 52) })).toBeNull();
  });
});

describe("how long the pressure is low", () => {
  /** 30 psi, under eight tenths of 52, for so many seconds, once. */
  const lowFor = (length: number, worked: Partial<Worked> = {}) =>
    alone("low-times", { pressure: (_, t) => (t >= 2000 && t <= 2000 + length ? 30 : 52), ...worked });
  test("the longest stretch under eight tenths of the set pressure: under a minute, under 400 s, longer, or most of the time", () => {
    expect([59, 61, 399, 401, 5000].map((length) => lowFor(length)?.level)).toEqual(["brief", "minutes", "minutes", "long", "mostly"]);
    expect(lowFor(120)?.numbers.longest).toBe(120);
    expect(alone("low-times", { pressure: () => 42 })?.level).toBe("brief");
  });
  test("with a switch under 0.93 of its cut-in", () => {
    const at = (low: number) => alone("low-times", { pressure: (_, t) => (t > 2000 && t < 3000 ? low : 50), facts: SWITCHED })?.level;
    expect([38, 37].map(at)).toEqual(["brief", "long"]);
  });
  test("two short ones are no long one", () => {
    expect(alone("low-times", { pressure: (k, t) => (t < 3600 && k < 50 ? 30 : 52) })?.level).toBe("brief");
  });
  test("a gap of many readings ends a low time, a single missing one does not", () => {
    const holed = (missing: number) => {
      const sight = workedHours({ pressure: (_, t) => (t >= 2000 && t <= 2500 ? 30 : 52), flow: null, speed: null, pumpKnown: false });
      const [one] = sight.record.channels;
      const kept = Array.from({ length: 7200 }, (_, t) => t).filter((t) => t <= 2200 || t > 2200 + missing);
      const sampling = { kind: "listed", times: Float64Array.from(kept) } as const;
      const channels = [{ ...one, sampling, values: Float32Array.from(kept, (t) => one.values[t]) }];
      return LOOKS["low-times"]({ ...sight, record: { ...sight.record, channels } })?.numbers.longest;
    };
    expect([0, 1, 40].map(holed)).toEqual([500, 500, 259]);
  });
  test("without a band nothing is said", () => {
    expect(alone("low-times", { pressure: () => 52, facts: { setPressure: undefined, pump: undefined } })).toBeNull();
  });
});

describe("the usual pressure", () => {
  const at = (usual: number, facts = {}) => alone("usual-pressure", { pressure: () => usual, facts })?.level;
  test("a tenth outside of what a drive holds (41.6 to 52 psi), or of a switch's band (40 to 60 psi)", () => {
    expect([37, 38, 57, 58].map((usual) => at(usual))).toEqual(["below", "in-band", "in-band", "above"]);
    expect([35.9, 36.1, 65.9, 66.1].map((usual) => at(usual, SWITCHED))).toEqual(["below", "in-band", "in-band", "above"]);
    const { usual, low, high } = alone("usual-pressure", { pressure: () => 50, facts: SWITCHED })?.numbers ?? {};
    expect([usual, low, high].map((p) => Math.round(Number(p) / psi(0.1)) / 10)).toEqual([50, 40, 60]);
  });
});

describe("overshoot", () => {
  /** So high for twelve of 7200 seconds, over a thousandth. */
  const over = (share: number, facts = {}, length = 12) =>
    alone("overshoot", { pressure: (_, t) => (t >= 100 && t < 100 + length ? 52 * share : 52), facts });
  test("over seven hundredths and over a seventh above the set pressure", () => {
    expect([1.069, 1.071, 1.139, 1.141].map((share) => over(share)?.level)).toEqual(["little", "some", "some", "large"]);
    expect(over(1.1)?.numbers.setPressure).toBe(psi(52));
  });
  test("a reading or two are a knock", () => expect(over(2, {}, 2)?.level).toBe("little"));
  test("not of a switch, nor against no set pressure", () => {
    expect(over(2, SWITCHED)).toBeNull();
    expect(over(2, { setPressure: undefined })).toBeNull();
  });
});

describe("a jump after a standstill", () => {
  const random = seededRandom(11);
  const scatter = Float64Array.from({ length: 7200 }, () => 0.05 * random.normal());
  /** Cycles of 600 s that stand still from second a to b; what the sensor shows then is 50 psi. */
  const stands = (a: number, b: number, live: (k: number) => number, shown = 50) =>
    alone("jump-from-still", { pressure: (k, t) => (t >= a && t < b ? shown : live(k)) + scatter[t] });
  const cycle = (k: number) => (k < 300 ? 60 - k / 15 : 40 + (k - 300) / 15);
  test("seen where the reading stood for minutes and is elsewhere in the next sample", () => {
    const seen = stands(1950, 4500, cycle); // at 4500 s the live pressure is 40 psi
    expect(seen?.level).toBe("seen");
    expect(Number(seen?.numbers.size)).toBeGreaterThan(psi(9));
    expect(Number(seen?.numbers.stood)).toBeGreaterThan(2500);
  });
  test("not where it goes on from where it stood, as a draw does after a rest", () => {
    expect(stands(1950, 4350, cycle)?.level).toBe("none"); // 50 psi again at the end
    expect(alone("jump-from-still", { pressure: (k, t) => 52 - (k > 400 ? (k - 400) / 20 : 0) + scatter[t] })?.level).toBe("none");
  });
  test("not where water moves as fast at other times: a tank without gas", () => {
    const stiff = (k: number) => (k < 300 ? 60 : 45);
    expect(alone("jump-from-still", { pressure: (k, t) => stiff(k) + scatter[t] })?.level).toBe("none");
  });
  test("not where the pump is seen to start with it: a draw that empties the tank does that, a reading that comes back only by chance", () => {
    const at = (start: number, others: readonly (readonly [number, number])[] = []) =>
      alone("jump-from-still", {
        pressure: (k, t) => (t >= 1950 && t < 4500 ? 50 : cycle(k)) + scatter[t],
        pumpKnown: true,
        pumpRuns: [...others, [start, 300]],
      })?.level;
    expect([4497, 4499, 4514, 4516].map((start) => at(start))).toEqual(["seen", "none", "none", "seen"]);
    // where a start comes every minute one comes with any jump
    const often = Array.from({ length: 74 }, (_, i) => [i * 60, 20] as const);
    expect(at(4510, often)).toBe("none");
    expect(at(4510, [...often, ...Array.from({ length: 11 }, (_, i) => [4450 + i, 0.5] as const)])).toBe("seen");
  });
  test("not from a low pressure, which a pump without water holds as still", () => {
    expect(stands(1950, 4500, cycle, 10)?.level).toBe("none");
  });
  /** A reading that stands at 50 psi for so long, exactly, is at 40 psi next for so many readings, and then at 50 psi again; before, it follows what is drawn, 1 to 3 psi lower. */
  const jumping = (length: number, { away = 4, step = 1, hours = 2, missing = -1 } = {}) => {
    const live = (t: number) => 48 + Math.sin(t / 100) + scatter[t];
    const at = (t: number) => (t < 4500 - length ? live(t) : t < 4500 || t >= 4500 + away * step ? 50 : 40);
    const sight = workedHours({
      pressure: (_, t) => (t === missing ? Number.NaN : at(t)),
      flow: null,
      speed: null,
      pumpKnown: false,
      step,
    });
    return LOOKS["jump-from-still"]({ ...sight, record: { ...sight.record, duration: seconds(hours * 3600) } })?.level;
  };
  test("of two jumps the larger is told, whichever came first", () => {
    for (const [first, second] of [
      [42, 38],
      [38, 42],
    ]) {
      const at = (t: number) =>
        t < 1000 || (t >= 2000 && t < 3000) ? 50 : t < 2000 ? first + Math.sin(t / 100) : second + Math.sin(t / 100);
      const seen = alone("jump-from-still", { pressure: (_, t) => (t < 3000 || t > 3600 ? at(t) : second) + 0.001 * scatter[t] });
      expect(Number(seen?.numbers.size) / psi(1)).toBeCloseTo(12, -1);
      expect(Number(seen?.numbers.size)).toBeGreaterThan(psi(10));
    }
  });
  test("for two minutes and twenty readings at least", () => {
    expect([110, 130].map((length) => jumping(length))).toEqual(["none", "seen"]);
    expect([170, 210].map((length) => jumping(length, { step: 10, away: 5 }))).toEqual(["none", "seen"]);
  });
  test("where it stays away for four readings", () => {
    expect([3, 4].map((away) => jumping(600, { away }))).toEqual(["none", "seen"]);
  });
  test("in an hour at least", () => {
    expect([0.99, 1].map((hours) => jumping(600, { hours }))).toEqual([undefined, "seen"]);
  });
  test("a missing reading ends what stood", () => {
    expect([4400, 4300].map((missing) => jumping(600, { missing }))).toEqual(["none", "seen"]);
  });
  test("what creeps does not stand, up or down: over two minutes it leaves the range of a still reading", () => {
    for (const rate of [-0.004, 0.004, 0]) {
      const at = (t: number) => (t < 4500 ? 50 + rate * (t - 4500) : 40);
      const creeping = alone("jump-from-still", {
        pressure: (_, t) => (t < 3000 ? 48 + Math.sin(t / 100) + scatter[t] : at(t) + 0.001 * scatter[t]),
      });
      expect(creeping?.level).toBe(rate === 0 ? "seen" : "none");
    }
  });
  test("not asked at 20 s a sample", () => expect(alone("jump-from-still", { pressure: cycle, step: 20 })).toBeNull());
});

describe("how close starts follow each other", () => {
  const at = (gap: number, count = 30) => lookAt("start-gaps", { pump: cyclesOf(count, gap / 2, gap / 2) });
  test("within a minute and a half: most, some, hardly any", () => {
    expect([89, 91].map((gap) => at(gap)?.level)).toEqual(["close", "apart"]);
    expect(at(60)?.numbers).toMatchObject({ share: 1, within: 90, starts: 30 });
  });
  test("eleven starts at least; a start read off the pressure needs nine samples in a gap", () => {
    expect(at(60, 10)).toBeNull();
    const pump = { ...cyclesOf(30, 30, 30), basis: "pressure" as const };
    expect(levelAt("start-gaps", { pump, record: workedHours({ pressure: () => 52 }).record })).toBe("close");
    expect(levelAt("start-gaps", { pump, record: workedHours({ pressure: () => 52, step: 15 }).record })).toBeNull();
    expect(levelAt("start-gaps", { pump: cyclesOf(30, 30, 30), record: workedHours({ pressure: () => 52, step: 15 }).record })).toBe(
      "close",
    );
    expect(levelAt("start-gaps", { pump: null, record: recordOf() })).toBeNull();
  });
});
