import { expect, test } from "vitest";
import { allowedStarts, type Poles } from "../../../analysis/hydraulics/allowed-starts";
import { watt } from "../../../shared/units/quantity";

// NEMA MG 10, allowable starts of design A and B motors, as reprinted in the EASA handbook: hp, then starts per hour / seconds off for 2, 4, 6 poles.
const PRINTED = `
  1  15/75    30/38    34/33
  3  9.9/80   19.8/40  22.4/36
  5  8.1/83   16.3/42  18.4/37
 10  6.2/92   12.5/46  14.2/41
 25  4.4/115  8.8/58   10.0/51
 50  3.4/145  6.8/72   7.7/64
100  2.6/220  5.2/110  5.9/97`;
const HP = 745.69987;

const rows = PRINTED.trim()
  .split("\n")
  .map((line) => line.trim().split(/\s+/))
  .flatMap(([hp, ...cells]) =>
    cells.map((cell, i) => [Number(hp), (2 * (i + 1)) as Poles, ...(cell.split("/").map(Number) as [number, number])] as const),
  );

test.each(rows)("%d hp with %d poles: %d starts per hour, %d s off", (hp, poles, starts, off) => {
  const allowed = allowedStarts(watt(hp * HP), poles)!;
  expect(allowed.perHour).toBeCloseTo(starts, 6);
  expect(allowed.leastRest).toBeCloseTo(off, 5);
});
test("half-way between two printed powers in their logarithm lies half-way between their starts", () => {
  expect(allowedStarts(watt(Math.sqrt(10 * 25) * HP), 4)!.perHour).toBeCloseTo((12.5 + 8.8) / 2, 6);
});
test("a power printed in watts, a trifle above its horsepower, is still that row's, up to the last one", () => {
  expect(allowedStarts(watt(100 * 745.6998715822702 * (1 + 5e-10)), 2)!.perHour).toBeCloseTo(2.6, 6);
  expect(allowedStarts(watt(100 * 745.6998715822702 * (1 + 5e-9)), 2)).toBeNull();
});
