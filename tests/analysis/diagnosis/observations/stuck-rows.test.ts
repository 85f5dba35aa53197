import { describe, expect, test } from "vitest";
import { stuckWhileMoving } from "../../../../analysis/diagnosis/observations/stuck-while-moving";
import type { PumpState } from "../../../../shared/findings/segment";
import { seconds } from "../../../../shared/units/quantity";
import { channelOf, gpm, psi, pumpWith } from "../../../builders/outcomes";

const SECONDS = 7200;
const STEP = 0.1; // psi
/** A reading without noise; its first value is one step off, so that the step is known. */
const reading = (at: (t: number) => number, step = STEP, every = 1) =>
  channelOf(
    "pressure",
    "gaugePressure",
    Array.from({ length: SECONDS / every }, (_, i) => psi(at(i * every) + (i === 0 ? step : 0))),
    every,
  );
const still = () => 52;
/** Runs of 60 s every 200 s from second 1000 on. */
const runs = (count: number, every = 200, length = 60) => Array.from({ length: count }, (_, i) => [1000 + i * every, length] as const);
const byPump = (at: (t: number) => number, pump: PumpState, step = STEP) => stuckWhileMoving(reading(at, step), null, pump, Number.NaN);

describe("starts and stops that a reading stands through", () => {
  test("five at least are asked of", () => {
    expect(byPump(still, pumpWith(runs(2)))).toBeNull();
    expect(byPump(still, pumpWith(runs(3)))).toBe(0);
  });
  // With nothing known of a live reading it stands through one in two (rule of succession): n (1/2)^k is under 1 in 100 from k = log2(100 n) on.
  test("ten in a row of ten are no chance, log2(1000) = 9.97; eight of eight may be, log2(800) = 9.6", () => {
    expect(byPump(still, pumpWith(runs(5)))).toBe(860);
    expect(byPump(still, pumpWith(runs(4)))).toBe(0);
  });
  test("cut runs have no start or stop to go by, nor has a rest of a single reading", () => {
    const cut = pumpWith(runs(8));
    expect(byPump(still, { ...cut, runs: cut.runs.map((run) => ({ ...run, complete: false })) })).toBeNull();
    expect(byPump(still, pumpWith(runs(12, 61, 60)))).toBeNull();
    expect(byPump(still, pumpWith(runs(12, 62, 60)))).toBeGreaterThan(600);
  });
  test("through sixty readings at least", () => {
    expect(byPump(still, pumpWith(runs(6, 11, 5)))).toBe(60);
    expect(byPump(still, pumpWith(runs(6, 11, 4)))).toBe(0);
  });
});

describe("what a still reading may show", () => {
  const pump = pumpWith(runs(8));
  test("two steps and a little, of three hundredths of the pressure at most (1.56 psi)", () => {
    expect(byPump(still, pump, 0.74)).toBeGreaterThan(0);
    expect(byPump(still, pump, 0.75)).toBeNull();
  });
  test("a reading that wanders by two steps lives, one step is its rounding", () => {
    const wandering = (steps: number) => byPump((t) => (t < 1700 ? 52 : 52 + steps * STEP), pump);
    expect(wandering(1)).toBe(1460);
    expect(wandering(2)).toBe(0);
    expect(wandering(3)).toBe(0);
  });
  test("no reading is not a still one", () => {
    // the row ends at the hole, and what is left of it holds eight
    expect(byPump((t) => (t > 1745 && t < 1990 ? Number.NaN : 52), pump)).toBe(0);
  });
  test("a low pressure is held as still by a pump without water: three quarters of the usual", () => {
    const many = pumpWith(runs(20));
    const live = (t: number) => ((t - 1000) % 200 < 60 ? 52 : 51);
    const lowAt = (low: number) => byPump((t) => (t > 3900 && t < 5500 ? low : live(t)), many);
    expect(lowAt(38)).toBe(0);
    expect(lowAt(40)).toBeGreaterThan(800);
  });
  test("the reading must stand from 15 s before the first to 45 s after the last", () => {
    const many = pumpWith(runs(20));
    const live = (t: number) => (t < 1000 || (t - 1000) % 200 < 60 ? 52 : 47);
    // still from a little before the start at 2000 s to a little after the stop at 3060 s
    const stands = (before: number, after: number) => byPump((t) => (t >= 2000 - before && t <= 3060 + after ? 49.5 : live(t)), many);
    expect(stands(15, 45)).toBe(1060);
    expect(stands(14, 45)).toBe(1000); // from the stop at 2060 s on
    expect(stands(15, 44)).toBe(1000); // to the start at 3000 s
  });
  test("not of a channel logged on change, whose silence is no reading", () => {
    const sampling = { kind: "on-change" as const, until: seconds(SECONDS), times: Float64Array.from({ length: SECONDS }, (_, i) => i) };
    expect(stuckWhileMoving({ ...reading(still), sampling }, null, pump, Number.NaN)).toBeNull();
  });
});

describe("jumps of the flow", () => {
  const flowing = (at: (t: number) => number, every = 1) =>
    channelOf("flow", "flow", Array.from({ length: SECONDS / every }, (_, i) => gpm(at(i * every))), every); // biome-ignore format: one channel
  const by = (flow: (t: number) => number, at: (t: number) => number = still, every = 1) =>
    stuckWhileMoving(reading(at, STEP, every), flowing(flow, every), null, gpm(20));
  /** On and off every 100 s from second 1000 on, so many times. */
  const switching =
    (jumps: number, size = 20) =>
    (t: number) => {
      const so = Math.min(jumps, Math.floor(t / 100) - 9);
      return so > 0 && so % 2 === 1 ? size : 0;
    };
  test("eight in a row are no chance", () => {
    expect(by(switching(8))).toBe(700);
    expect(by(switching(7))).toBe(0);
    expect(by(switching(4))).toBeNull();
  });
  test("one is a change by three tenths of the highest flow", () => {
    expect(by(switching(8, 6.1))).toBe(700);
    expect(by(switching(8, 5.9))).toBeNull();
  });
  test("within 10 s: a tap opened more slowly leaves a loop time to follow", () => {
    /** From nothing to 6.2 gpm and back in so many seconds, every 100 s. */
    const ramps = (seconds: number) => (t: number) => {
      const part = Math.min(1, (t % 100) / seconds);
      return 6.2 * (Math.floor(t / 100) % 2 === 1 ? part : 1 - part);
    };
    expect(by(ramps(10))).toBeGreaterThan(6000);
    expect(by(ramps(11))).toBeNull();
  });
  test("three times as many as the fifth longest row of a reading that lives: rows of four ask for twelve", () => {
    /** Four rows of four jumps, each at a pressure of its own, and then one that stands. */
    const level = (t: number) => (t < 2550 ? 44 + 2 * Math.floor(Math.max(0, t - 950) / 400) : 52);
    expect(by(switching(16 + 12), level)).toBe(1100);
    expect(by(switching(16 + 11), level)).toBe(0);
  });
  test("readings over 10 s apart do not show a jump's moment, nor does a flow whose highest is not known", () => {
    expect(by(switching(40), still, 10)).toBeGreaterThan(3000);
    expect(by(switching(40), still, 12)).toBeNull();
    expect(stuckWhileMoving(reading(still), flowing(switching(20)), null, Number.NaN)).toBeNull();
    expect(stuckWhileMoving(reading(still), flowing(switching(20)), null, 0)).toBeNull();
  });
  test("starts and jumps count together: half of what either would need makes one", () => {
    const pump = (count: number) => pumpWith(runs(count));
    const both = (starts: number, jumps: number) => stuckWhileMoving(reading(still), flowing(switching(jumps)), pump(starts), gpm(20));
    expect(both(3, 4)).toBeGreaterThan(0); // 6 of 10 and 4 of 8
    expect(both(2, 4)).toBe(0); // 4 of 9 and 4 of 8
  });
});
