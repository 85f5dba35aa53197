import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../analysis/numerics/random";
import { backToOrder } from "../../../analysis/segments/start-order";
import type { PumpState } from "../../../shared/findings/segment";
import { seconds } from "../../../shared/units/quantity";
import { channel, every, recordOf } from "../../builders/record";

const RESTART = 4e5; // Pa
const HELD = 4.5e5;
const RUN = 60; // s from the turn to the stop

/**
 * Falls at rates between `slowest` and `quickest` (Pa/s) from the held pressure; the pressure turns a delay after the restart pressure is passed. Both instants
 * are known exactly: p(t) = W - r (t - passed).
 */
function sawTooth({ delay = 4, slowest = 500, quickest = 4000, count = 30, noise = 300, plunges = false }) {
  const chance = seededRandom(11);
  const pressures: number[] = [];
  const passings: number[] = [];
  const runs: { from: number; to: number }[] = [];
  const add = (until: number, value: (t: number) => number) => {
    while (pressures.length < until) pressures.push(value(pressures.length) + noise * chance.normal());
  };
  let stop = 40;
  add(stop, () => HELD);
  for (let k = 0; k < count; k++) {
    const rate = slowest * (quickest / slowest) ** (((k * 7) % count) / (count - 1));
    const passed = stop + (HELD - RESTART) / rate;
    const turn = passed + delay;
    // an empty tank: its last three seconds take the pressure down by whatever they please
    const depth = plunges ? 40e3 * chance.next() : 0;
    const plunge = (t: number) => (depth * Math.max(0, t - (turn - 3))) / 3;
    const low = RESTART - rate * delay - plunge(turn);
    add(turn, (t) => HELD - rate * (t - stop) - plunge(t));
    add(turn + 10, (t) => low + ((HELD - low) * (t - turn)) / 10);
    add(turn + RUN, () => HELD);
    passings.push(passed);
    runs.push({ from: turn, to: turn + RUN });
    stop = turn + RUN;
  }
  const sampling = every(1, pressures.length);
  const end = seconds(pressures.length - 1);
  const state: PumpState = {
    basis: "pressure",
    channel: "pressure",
    mode: "switching",
    runs: runs.map(({ from, to }) => ({ from: seconds(from), to: seconds(to), complete: false })),
    observed: [{ from: seconds(0), to: end }],
    separation: null,
    certainty: 0.6,
    pumps: [],
  };
  return { record: recordOf([channel("pressure", sampling, pressures)]), state, passings };
}

const furthest = (runs: PumpState["runs"], instants: readonly number[]) =>
  Math.max(...runs.map(({ from }, k) => Math.abs(from - instants[k])));

describe("the start of a drive, from how deep quick and slow falls turn", () => {
  test.each([2, 4, 9])(
    "lies in the middle of a delay of %i s before the turn, within half a second: how much of it was waiting does not show",
    (delay) => {
      const { record, state, passings } = sawTooth({ delay });
      const middles = passings.map((passed) => passed + delay / 2);
      expect(furthest(state.runs, passings)).toBeCloseTo(delay, 6);
      expect(furthest(backToOrder(state, record, []).runs, middles)).toBeLessThan(0.5);
    },
  );
  test("is not looked for where all falls are alike: then a deep turn and a late one are the same", () => {
    const { record, state } = sawTooth({ slowest: 1500, quickest: 1500 });
    expect(backToOrder(state, record, [])).toBe(state);
  });
  test("is the turn itself where the pump gives water at once", () => {
    const { record, state, passings } = sawTooth({ delay: 0 });
    expect(furthest(backToOrder(state, record, []).runs, passings)).toBeLessThan(0.5);
  });
  test("is the turn itself where a tank that ran empty let the pressure plunge there", () => {
    const { record, state } = sawTooth({ delay: 0, slowest: 700, quickest: 1400, plunges: true });
    expect(backToOrder(state, record, [])).toBe(state);
  });
  test("is not looked for in a handful of starts", () => {
    const { record, state } = sawTooth({ count: 5 });
    expect(backToOrder(state, record, [])).toBe(state);
  });
});
