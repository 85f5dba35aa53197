import { describe, expect, test } from "vitest";
import { restsByWater } from "../../../analysis/segments/falls-of-tank";
import { turningPoints } from "../../../analysis/segments/turning-points";
import { absolutePascal } from "../../../shared/units/pressure";
import { every } from "../../builders/record";

const AIR = absolutePascal(101_325);
const K = 30_000; // Pa m3
const HELD = 4.5e5; // Pa gauge
const METER = 1; // s between two readings of the meter

/** A fall from the held pressure by `depth`, Pa, over `lasts` s, while the pump gives a part of what is drawn. The gas gives K (1/p2 - 1/p1) (Boyle's law). */
type Drawn = { readonly depth: number; readonly lasts: number; readonly pumped: number };

/** Falls one after the other, a sample a second, with the pressure brought back in between; the water drawn is known exactly. */
function record(falls: readonly Drawn[]) {
  const pressures: number[] = [HELD - 30e3, HELD - 15e3, HELD]; // a fall counts from its top
  const drawn: number[] = [0, 0, 0];
  const lows: number[] = [];
  const inverse = (p: number) => 1 / (p + AIR);
  const add = (p: number, water: number) => {
    pressures.push(p);
    drawn.push(drawn[drawn.length - 1] + water);
  };
  for (const { depth, lasts, pumped } of falls) {
    const given = K * (inverse(HELD - depth) - inverse(HELD));
    for (let i = 1; i <= lasts; i++) add(1 / (inverse(HELD) + (i / lasts) * (given / K)) - AIR, given / lasts / (1 - pumped));
    lows.push(pressures.length - 1);
    for (let i = 1; i <= 20; i++) add(HELD - depth + (depth * i) / 20, 0);
  }
  add(HELD - 100, 0);
  const sampling = every(1, pressures.length);
  const at = (t: number) => {
    const i = Math.min(drawn.length - 2, Math.floor(t));
    return drawn[i] + (t - i) * (drawn[i + 1] - drawn[i]);
  };
  const water = { between: (from: number, to: number) => at(to) - at(from), interval: METER };
  return { turns: turningPoints(pressures, 0, pressures.length - 1, 10_000), pressures, sampling, water, lows };
}

const rests = (falls: readonly Drawn[]) => {
  const { pressures, sampling, turns, water, lows } = record(falls);
  const found = restsByWater(pressures, sampling, turns, water, AIR);
  return found === null ? null : lows.map((low) => found.has(low));
};

const RESTS: readonly Drawn[] = [20, 35, 60, 90, 120, 180].map((lasts) => ({ depth: 50e3, lasts, pumped: 0 }));
const DIPS: readonly Drawn[] = [0.55, 0.7, 0.8, 0.9, 0.95, 0.97].map((pumped, i) => ({ depth: 48e3, lasts: 15 + 10 * i, pumped }));

describe("falls of a tank whose pump rests, by the water drawn", () => {
  test("are those in which the tank gave all of it, be they slow or quick, among dips as deep that a running pump recovers from", () => {
    const mixed = RESTS.flatMap((rest, i) => [rest, DIPS[i]]);
    expect(rests(mixed)).toEqual(mixed.map(({ pumped }) => pumped === 0));
  });
  test("are not told where no constant stands out: a drive that never rests", () => {
    expect(
      rests([...DIPS, ...DIPS.map((dip, i) => ({ ...dip, pumped: 0.5 + 0.08 * i, lasts: dip.lasts * 3 }))])?.filter(Boolean).length ?? 0,
    ).toBe(0);
  });
  test("are not told by a handful", () => {
    expect(rests(RESTS.slice(0, 4))).toBeNull();
  });
  test("too quick for the meter are told by their depth: a loop that catches up late lets the tank give the first of a draw", () => {
    const quick: readonly Drawn[] = [50e3, 20e3, 51e3, 18e3].map((depth) => ({ depth, lasts: 3, pumped: 0 }));
    expect(rests([...RESTS, ...quick])).toEqual([...RESTS.map(() => true), true, false, true, false]);
  });
  test("are told in spite of a gas that cools: exponents from 1 to 1.4 give up to 1.4 times as much water", () => {
    const cooled = RESTS.map((rest, i) => ({ ...rest, pumped: 1 - 1 / (1 + 0.06 * i) }));
    expect(rests(cooled)).toEqual(cooled.map(() => true));
  });
});
