import { expect, test } from "vitest";
import { stripsOf } from "../../../src/charts/strips";
import { axisRange, rangeInSight } from "../../../src/charts/trace-marks";
import { channel, every } from "../../builders/record";
import { span, traceOf } from "../../builders/trace";

const traces = [
  channel("flow", every(1, 3), [3, 5, 4], "Flow"),
  channel("pressure", every(1, 3), [300, 320, 310], "P1"),
  channel("pressure", every(1, 3), [290, 330, 310], "P2"),
  channel("other", every(1, 3), [1, 2, 3], "x"),
  channel("other", every(1, 3), [9, 9, 9], "y"),
].map(traceOf);

test("each quantity has its own strip, pressure first; what has no unit shares with nobody", () => {
  expect(stripsOf(traces).map(({ title, channels }) => [title, channels])).toEqual([
    ["Pressure", [1, 2]],
    ["Flow", [0]],
    ["x", [3]],
    ["y", [4]],
  ]);
});
test("a flow is drawn from zero, a pressure where it is", () => {
  const [pressure, flow] = stripsOf(traces);
  expect([pressure.low, pressure.high]).toEqual([290, 330]);
  expect([flow.low, flow.high]).toEqual([0, 5]);
});

const line = (at: number) => ({ kind: "line", axis: "y", at, label: "", dash: [] }) as const;
test("a line near the trace widens the picture; one far off does not press the trace flat", () => {
  expect(axisRange(40, 60, [line(66)]).high).toBeGreaterThan(66);
  expect(axisRange(40, 60, [line(150)]).high).toBeLessThan(65);
  expect(axisRange(0, 0, []).high).toBeGreaterThan(0);
});

test("the range in sight knows only what lies in the window", () => {
  const series = {
    times: Float64Array.from([0, 1, 2, 3]),
    values: [
      [9, 1, null, -9],
      [undefined, 4, 2, 0],
    ],
  };
  expect(rangeInSight(series, span(1, 2))).toEqual({ low: 1, high: 4 });
  expect(rangeInSight(series, span(5, 6))).toBeNull();
});
