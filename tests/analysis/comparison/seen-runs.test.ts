import { expect, test } from "vitest";
import { blockGrid } from "../../../analysis/comparison/block-grid";
import { countRuns, seenRuns, slowerCounts } from "../../../analysis/comparison/seen-runs";

/** One character is 10 s, # is running. */
const runsOf = (drawing: string) =>
  [...drawing.matchAll(/#+/g)].map((m) => ({
    from: m.index * 10,
    to: (m.index + m[0].length) * 10,
    complete: m.index > 0 && m.index + m[0].length < drawing.length,
  }));
const spans = (runs: ReturnType<typeof seenRuns>) => runs.map(({ from, to }) => [from, to]);

test("a slower log misses a short run, and a short rest joins two runs", () => {
  const runs = runsOf("..#....###.###....###..");
  expect(spans(seenRuns(runs, 5))).toEqual(spans(runs));
  expect(spans(seenRuns(runs, 20))).toEqual([
    [70, 140],
    [180, 210],
  ]);
});
test("a start at the record's first instant is no start; a run cut by its end is not short", () => {
  const grid = blockGrid(100, 3);
  expect(countRuns(runsOf("##....#....##....#"), 20, grid)).toEqual({
    starts: [1, 2, 0],
    shortCycles: [1, 0, 0],
  });
});
test("only lengths that hide something are kept", () => {
  const grid = blockGrid(100, 3);
  const kept = slowerCounts(runsOf("..#....###.###....###.."), 60, true, grid);
  expect(kept.map(({ atLeastS }) => atLeastS)).toEqual([20, 60]);
});
test("seconds of a span fall into the blocks it touches, and none is lost", () => {
  const grid = blockGrid(100, 3);
  expect(grid.sumSpans([{ from: 50, to: 260 }])).toEqual([50, 100, 60]);
  expect(grid.sumSpans([{ from: 290, to: 300.5 }])).toEqual([0, 0, 10.5]);
});
