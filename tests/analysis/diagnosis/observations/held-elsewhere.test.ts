import { expect, test } from "vitest";
import { heldElsewhere } from "../../../../analysis/diagnosis/observations/held-elsewhere";
import type { PumpState } from "../../../../shared/findings/segment";
import { levelAt } from "../../../builders/look-at";
import { channelOf, gpm, psi, pumpWith, recordOf, segmentsWith, siteOf } from "../../../builders/outcomes";

const STEP = 10; // s
const HOURS = 12;
const NIGHT = [4, 9] as const; // h
const [RUN, REST] = [600, 600]; // s
const atNight = (t: number) => t >= NIGHT[0] * 3600 && t < NIGHT[1] * 3600;
const cycling = pumpWith(Array.from({ length: (HOURS * 3600) / (RUN + REST) }, (_, i) => [i * (RUN + REST), RUN] as const));
const onAndOn: PumpState = { ...pumpWith([[0, HOURS * 3600]]), mode: "switching" };
/** From 2 to 20 gpm and back in 3.3 hours. */
const draw = (t: number) => 11 + 9 * Math.sin((2 * Math.PI * t) / 12_000);

/** A drive with 52 psi as set pressure and what it held at a time, psi; between runs a fall of 5 psi. */
function drawn(held: (t: number) => number, pump = cycling) {
  const times = Array.from({ length: (HOURS * 3600) / STEP }, (_, i) => i * STEP);
  const rests = (t: number) => (pump === cycling && t % (RUN + REST) >= RUN ? (5 * ((t % (RUN + REST)) - RUN)) / REST : 0);
  const pressure = channelOf(
    "pressure",
    "gaugePressure",
    times.map((t) => psi(held(t) - rests(t))),
    STEP,
  );
  const flow = channelOf(
    "flow",
    "flow",
    times.map((t) => gpm(draw(t))),
    STEP,
  );
  return { record: recordOf([pressure, flow], HOURS), pump, outcomes: [] };
}
const spansOf = ({ record, pump }: ReturnType<typeof drawn>) =>
  heldElsewhere({ outcomes: [], segments: segmentsWith(pump), site: siteOf(), record });

const setback = drawn((t) => (atNight(t) ? 40 : 52));
test("a drive that sleeps at a lower pressure through the night holds it on purpose, and is short of nothing there", () => {
  expect(spansOf(setback).map(({ from, to }) => [from / 3600, to / 3600])).toEqual([[expect.closeTo(4, 0), expect.closeTo(9, 0)]]);
  expect(levelAt("low-times", setback)).toBe("brief");
  expect(levelAt("sunk-pressure", setback)).toBe("held");
});
test("it lasts from the end of the run before to the start of the run after: the rests about it belong to it", () => {
  const [held] = spansOf(setback);
  const cycle = RUN + REST;
  expect(held.from % cycle).toBe(RUN);
  expect(held.to % cycle).toBe(0);
  expect(held.from).toBeLessThan(NIGHT[0] * 3600);
  expect(held.from).toBeGreaterThan(NIGHT[0] * 3600 - cycle);
  expect(held.to).toBeGreaterThanOrEqual(NIGHT[1] * 3600);
  expect(held.to).toBeLessThanOrEqual(NIGHT[1] * 3600 + cycle);
});
test("of two lower levels the one at which the most was held, whether it comes first or last, higher or lower", () => {
  for (const [first, last] of [
    [40, 46],
    [46, 40],
  ]) {
    const two = drawn((t) => (t < 5 * 3600 ? first : t < 7.5 * 3600 ? last : 52));
    const turned = drawn((t) => (t < 2.5 * 3600 ? last : t < 7.5 * 3600 ? first : 52));
    expect(spansOf(two)).toHaveLength(1);
    expect(spansOf(two)[0].to / 3600).toBeCloseTo(5, 0);
    expect(spansOf(turned)).toHaveLength(1);
    expect(spansOf(turned)[0].from / 3600).toBeCloseTo(2.5, 0);
  }
});
test("for an hour at least, and far below the set pressure nothing is held", () => {
  const until = (hours: number) => spansOf(drawn((t) => (t >= 4 * 3600 && t < (4 + hours) * 3600 ? 40 : 52)));
  expect([0.8, 3].map((hours) => until(hours).length)).toEqual([0, 1]);
  expect(spansOf(drawn((t) => (atNight(t) ? 0.5 * 52 : 52)))).toEqual([]);
});
test("one that holds the set pressure holds no other", () => {
  expect(spansOf(drawn(() => 52))).toEqual([]);
});
test("level while the flow goes from little to most is held, also without a stop", () => {
  expect(spansOf(drawn(() => 40, onAndOn))).toHaveLength(1);
});
test("a pump at its end goes along its curve (H = a - b q^2): short, not held", () => {
  const weak = drawn((t) => 45 - 0.04 * draw(t) ** 2, onAndOn);
  expect(spansOf(weak)).toEqual([]);
  expect(levelAt("sunk-pressure", weak)).toBe("low");
});
test("what stands low without a change of flow or a stop tells of no control", () => {
  const { record, pump } = drawn(() => 40, onAndOn);
  const steady = { ...record, channels: record.channels.slice(0, 1) };
  expect(spansOf({ record: steady, pump, outcomes: [] })).toEqual([]);
});
