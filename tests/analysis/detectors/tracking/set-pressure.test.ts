import { describe, expect, test } from "vitest";
import { findSetPressure } from "../../../../analysis/detectors/tracking/set-pressure";
import { type EvenStretch, evenStretches } from "../../../../analysis/segments/even-stretch";
import type { PumpState } from "../../../../shared/findings/segment";
import { readSiteFacts } from "../../../../shared/site/read-site-facts";
import { alwaysRunning, evidenceOf, recordOf } from "../../../builders/known-evidence";

const KPA = 1e3;
/** A band of 5 kPa on either side, so that the fullest window is 10 kPa wide. */
const BAND = { limits: { band: "5 kPa" } };
const DRIVE = { ...BAND, pump: "variable-speed" };

type Seen = { readonly facts?: object; readonly speed?: boolean; readonly mode?: PumpState["mode"] };
function setOf(pressures: ArrayLike<number>, { facts = DRIVE, speed = false, mode }: Seen = {}) {
  const pressure = Float64Array.from(pressures);
  const record = recordOf(speed ? { pressure, speed: pressure } : { pressure });
  const pump = mode === undefined ? {} : { pump: { ...alwaysRunning(record), mode } };
  const running: readonly EvenStretch[] = evenStretches(record.channels[0], [], null, 1);
  return findSetPressure(evidenceOf(record, pump, readSiteFacts(facts, "site")), running);
}
const steady = (value: number, count: number) => new Array<number>(count).fill(value);
/** So far apart that no window holds two of them. */
const apart = (count: number) => Array.from({ length: count }, (_, i) => (700 + 20 * i) * KPA);

test("a given one is taken as given, whatever the log keeps to", () => {
  expect(setOf(steady(300 * KPA, 50), { facts: { ...BAND, setPressure: "400 kPa" } })).toEqual({ value: 400 * KPA, from: "given" });
});
describe("who keeps to a pressure", () => {
  const held = steady(400 * KPA, 100);
  const found = { value: 400 * KPA, from: "log" };
  test("a drive that is stated, logged, or never rests", () => {
    expect(setOf(held)).toEqual(found);
    expect(setOf(held, { facts: BAND, speed: true })).toEqual(found);
    expect(setOf(held, { facts: BAND, mode: "always-running" })).toEqual(found);
  });
  test("a pump that rests, or of which nothing is known, does not", () => {
    expect(setOf(held, { facts: BAND, mode: "switching" })).toBeNull();
    expect(setOf(held, { facts: BAND })).toBeNull();
  });
  test("a fixed-speed pump does not, even where a speed was logged", () => {
    expect(setOf(held, { facts: { ...BAND, pump: "fixed-speed" }, speed: true, mode: "always-running" })).toBeNull();
  });
  test("a pump that was never seen running does not", () => {
    expect(findSetPressure(evidenceOf(recordOf({ pressure: held }), {}, readSiteFacts(DRIVE, "site")), [])).toBeNull();
  });
});
describe("how much of the time it must be kept", () => {
  test("three tenths are enough, less are not", () => {
    expect(setOf([...steady(400 * KPA, 30), ...apart(70)])?.value).toBe(400 * KPA);
    expect(setOf([...steady(400 * KPA, 29), ...apart(71)])).toBeNull();
  });
  test("nobody holds less than 50 kPa", () => {
    expect(setOf(steady(50 * KPA, 20))?.value).toBe(50 * KPA);
    expect(setOf(steady(49.9 * KPA, 20))).toBeNull();
  });
});
describe("the fullest window of twice the band", () => {
  test("holds both of its edges and nothing beyond", () => {
    // 15 + 15 within 10 kPa are three tenths of 100; within a little more than that they are two windows of 15.
    expect(setOf([...steady(400 * KPA, 15), ...steady(410 * KPA, 15), ...apart(70)])).not.toBeNull();
    expect(setOf([...steady(400 * KPA, 15), ...steady(410.1 * KPA, 15), ...apart(70)])).toBeNull();
  });
  test("gives its middle value, wherever in the record its samples lie", () => {
    const mixed = [...steady(406 * KPA, 10), ...steady(400 * KPA, 10), ...steady(402 * KPA, 10), ...apart(20)];
    expect(setOf(mixed)?.value).toBe(402 * KPA);
  });
  test("is the fuller one, first or last", () => {
    expect(setOf([...steady(300 * KPA, 40), ...steady(500 * KPA, 60)])?.value).toBe(500 * KPA);
    expect(setOf([...steady(300 * KPA, 60), ...steady(500 * KPA, 40)])?.value).toBe(300 * KPA);
    expect(setOf([...steady(500 * KPA, 50), ...steady(300 * KPA, 50)])?.value).toBe(300 * KPA); // of two alike the lower
  });
  test("is the same in a long record, of which only some samples are looked at", () => {
    const long = Float64Array.from({ length: 180_000 }, (_, i) => (i < 10 ? 90 : i % 3 === 0 ? 400 : 700 + (i % 997)) * KPA);
    expect(setOf(long)?.value).toBe(400 * KPA);
  });
});
