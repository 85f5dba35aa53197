import { expect, test } from "vitest";
import type { Span } from "../../../../shared/findings/span";
import { seconds } from "../../../../shared/units/quantity";
import { bestPlace } from "../../../../src/views/findings/best-place";

const span = (from: number, length: number): Span => ({ from: seconds(from), to: seconds(from + length) });
const every = (from: number, count: number, apart: number) => Array.from({ length: count }, (_, i) => span(from + i * apart, 20));

test("of a few places the longest is shown", () => {
  expect(bestPlace([span(0, 10), span(100, 50), span(500, 30)])).toEqual(span(100, 50));
});

test("of many short runs the quarter of an hour that holds most, not the one long run", () => {
  const places = [...every(0, 20, 600), ...every(20_000, 20, 45), span(30_000, 7200), ...every(50_000, 20, 600)];
  const { from, to } = bestPlace(places);
  expect([from, to]).toEqual([20_000, 20_900]);
});
