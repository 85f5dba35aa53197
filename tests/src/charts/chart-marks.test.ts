import { expect, test } from "vitest";
import { drawMarks, type PlotFrame } from "../../../src/charts/chart-marks";
import type { ChartMark } from "../../../src/charts/chart-spec";

const frame: PlotFrame = { left: 50, top: 0, width: 300, height: 100, scale: 1, toX: (v) => 50 + v, toY: (v) => 100 - v };
const colours = new Proxy({}, { get: () => "black" }) as Parameters<typeof drawMarks>[3];

/** Ink that measures seven pixels a letter and notes what is written where. */
function notingInk() {
  const written: { readonly text: string; readonly left: number; readonly right: number }[] = [];
  const ink = {
    measureText: (text: string) => ({ width: 7 * text.length }),
    fillText: (text: string, left: number) => void written.push({ text, left, right: left + 7 * text.length }),
  };
  const other = { get: (of: object, name: string) => (name in of ? Reflect.get(of, name) : () => {}), set: () => true };
  return { written, ink: new Proxy(ink, other) as unknown as CanvasRenderingContext2D };
}

const line = (at: number): ChartMark => ({ kind: "line", axis: "x", at, label: "period found 125.7 s", dash: [] });

test("the name of an upright line stands right of it, and left where it would run out of the plot", () => {
  const { ink, written } = notingInk();
  drawMarks(ink, frame, [line(20), line(280)], colours, "13px sans-serif");
  expect(written.map(({ left, right }) => [left >= 50, right <= 350])).toEqual([
    [true, true],
    [true, true],
  ]);
  expect(written[0].left).toBeGreaterThan(frame.toX(20));
  expect(written[1].right).toBeLessThan(frame.toX(280));
});
