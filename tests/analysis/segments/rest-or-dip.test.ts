import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { isCannotTell } from "../../../shared/findings/segment";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";

const SET = 400_000; // Pa gauge
const GIVE = 1e-7; // m3/Pa, of tank and pipes about the set pressure
type Draw = { readonly at: number; readonly length: number; readonly flow: number };

/** Draws of 4 to 30 L/min, a minute or more each, one every ten minutes or so. */
function draws(seconds: number): Draw[] {
  const chance = seededRandom(3);
  const all: Draw[] = [];
  for (let at = 300; at < seconds - 600; at += 400 + 400 * chance.next())
    all.push({ at, length: 60 + 120 * chance.next(), flow: (4 + 26 * chance.next()) / 60_000 });
  return all;
}

/** C dp/dt = Q - q in steps of 0.1 s, one sample a second; `always` is drawn beside the taps, m3/s, and `pump` gives Q from the pressure and its own state. */
function pressureOf(seconds: number, always: number, pump: (p: number, dt: number) => number): Float64Array {
  const taps = draws(seconds);
  const chance = seededRandom(4);
  let p = SET;
  const seen: number[] = [];
  for (let i = 0; i < seconds * 10; i++) {
    const t = i / 10;
    const drawn = taps.reduce((sum, { at, length, flow }) => sum + (t >= at && t < at + length ? flow : 0), always);
    p += ((pump(p, 0.1) - drawn) * 0.1) / GIVE;
    if (i % 10 === 0) seen.push(p + 100 * chance.normal());
  }
  return Float64Array.from(seen);
}

/** A loop of second order that never sleeps: damped, 0.08 1/s; each draw dips the pressure by q/C over e times that. */
function sleepless(): (p: number, dt: number) => number {
  const pace = 0.08;
  let kept = 0;
  return (p, dt) => {
    kept += pace * pace * GIVE * (SET - p) * dt;
    return Math.max(0, 2 * pace * GIVE * (SET - p) + kept);
  };
}

/** The same drive asleep: it starts 0.4 bar under its set pressure, runs up in two seconds and sleeps 15 s after the last water. */
function sleeper(): (p: number, dt: number) => number {
  let [running, idle, since, kept] = [false, 0, 0, 0];
  return (p, dt) => {
    if (!running && p < SET - 40_000) [running, idle, since, kept] = [true, 0, 0, 0];
    if (!running) return 0;
    since += dt;
    kept = Math.max(0, kept + 0.02 * GIVE * (SET - p) * dt);
    const given = Math.max(0, 0.5 * GIVE * (SET - p) + kept) * Math.min(1, since / 2);
    idle = given < 1e-6 ? idle + dt : 0;
    if (idle > 15) running = false;
    return given;
  };
}

const pumpOf = (values: Float64Array) =>
  evidenceOf(recordOf([channel("pressure", every(1, values.length), values)]), { pump: "variable-speed" }).segments.pump;

describe("pressure alone", () => {
  test("a drive that never sleeps dips at each draw, the deeper the larger, and no start is told", () => {
    const values = pressureOf(20_000, 4e-4, sleepless());
    expect(Math.min(...values)).toBeLessThan(SET - 15_000); // deep enough to be looked at
    expect(isCannotTell(pumpOf(values))).toBe(true);
  });
  test("one that sleeps falls to its restart pressure, whatever the draw, and its starts are told", () => {
    const values = pressureOf(20_000, 0, sleeper());
    const pump = pumpOf(values);
    if (isCannotTell(pump)) throw new Error(pump.id);
    expect(pump.runs.length).toBeGreaterThan(20);
  });
});
