import { describe, expect, test } from "vitest";
import { drawColumns } from "../../../src/charts/draw-columns";
import type { Point } from "../../../src/charts/trace-series";

/** What is drawn with one pixel a second and one a unit, y upwards from 100: left, top and bottom of each stroke, lines between far ones, and what is in thin ink. */
function drawn(values: readonly Point[], dash: readonly number[] = []) {
  const strokes: (readonly [number, number, number])[] = [];
  const far: number[] = [];
  const thin: (readonly [number, number, number])[] = [];
  const ink = {
    globalAlpha: 1,
    fillStyle: "",
    strokeStyle: "",
    lineWidth: 0,
    fillRect(x: number, y: number, _w: number, h: number) {
      if (ink.globalAlpha < 1) thin.push([x, y, y + h]);
      else strokes.push([x, y + 0.5, y + h - 0.5]);
    },
    beginPath() {},
    stroke() {},
    moveTo: (x: number) => far.push(x),
    lineTo: (x: number) => far.push(x),
  };
  const frame = { left: 0, top: 0, width: 100, height: 100, scale: 1, toX: (t: number) => t, toY: (v: number) => 100 - v };
  const times = Float64Array.from(values, (_, i) => Math.floor(i / 2) + (i % 2 === 0 ? -0.25 : 0.25));
  drawColumns(ink as unknown as CanvasRenderingContext2D, frame, times, values, { colour: "", width: 1, dash });
  return { strokes, far, thin };
}

test("a stroke spans the least and the greatest value of its column", () => {
  expect(drawn([10, 30]).strokes).toEqual([[0, 70, 90]]);
});
test("neighbours meet: a step leaves no hole in the line", () => {
  expect(drawn([10, 20, 60, 50]).strokes).toEqual([
    [0, 80, 90],
    [1, 40, 80],
  ]);
});
test("a break stays a break; columns without a sample are bridged by a thin line", () => {
  expect(drawn([10, 20, null, null, 60, 50]).far).toEqual([]);
  expect(drawn([10, 20, null, null, 60, 50]).strokes[1]).toEqual([2, 40, 50]);
  const u = undefined;
  expect(drawn([10, 20, u, u, u, u, u, u, 60, 50]).far).toEqual([0, 4]);
});
test("a dash leaves columns out", () => {
  const flat = Array.from({ length: 20 }, () => 5);
  expect(drawn(flat, [3, 2]).strokes.map(([x]) => x)).toEqual([0, 1, 2, 5, 6, 7]);
});

describe("inside a stretch of columns the ink is thinner", () => {
  const block = [10, 90, 90, 10, 10, 90, 90, 10];
  test("what both neighbours cover is drawn apart, the outline and the ends at full strength", () => {
    expect(drawn(block).thin).toEqual([
      [1, 10.5, 89.5],
      [2, 10.5, 89.5],
    ]);
  });
  test("a spike that one column alone holds is drawn at full strength throughout", () => {
    expect(drawn([50, 52, 52, 50, 5, 99, 50, 52, 52, 50]).thin).toEqual([]);
  });
  test("a spike on top of a block keeps its full strength above the block", () => {
    const { strokes, thin } = drawn([40, 60, 60, 40, 40, 95, 60, 40, 40, 60]);
    expect(strokes).toContainEqual([2, 5, 40]);
    expect(thin).toContainEqual([2, 40.5, 59.5]);
  });
});
