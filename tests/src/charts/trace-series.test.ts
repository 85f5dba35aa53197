import { describe, expect, test } from "vitest";
import { seconds } from "../../../shared/units/quantity";
import { columnSeries, gapsOf, sampleSeries } from "../../../src/charts/trace-series";
import { at, channel, every, onChange } from "../../builders/record";
import { drawnOf, samplesOf, span } from "../../builders/trace";

const same = (si: number) => si;

describe("drawn as columns", () => {
  test("each column has its least and its greatest value, in the unit shown", () => {
    const wave = channel(
      "pressure",
      every(1, 1600),
      Array.from({ length: 1600 }, (_, i) => (i % 2 === 0 ? -1 : 1)),
    );
    const { times, values } = columnSeries([drawnOf(wave)], span(0, 1600), 4, (v) => 10 * v);
    expect(times.length).toBe(values[0].length);
    const pairs = Array.from({ length: 4 }, (_, c) => [values[0][2 * c], values[0][2 * c + 1]].map(Number).sort((a, b) => a - b));
    expect(pairs).toEqual([
      [-10, 10],
      [-10, 10],
      [-10, 10],
      [-10, 10],
    ]);
  });

  test("columns stay on the same instants while the window moves, so that the picture does not shimmer", () => {
    const flat = drawnOf(channel("flow", every(1, 1600), new Float64Array(1600)));
    const first = columnSeries([flat], span(100, 500), 100, same).times;
    const later = columnSeries([flat], span(101.3, 501.3), 100, same).times;
    const distance = (later[0] - first[0]) / 4;
    expect(Math.abs(distance - Math.round(distance))).toBeLessThan(1e-9);
  });

  test("a hole of an even log is a break; slow sampling is not", () => {
    const holed = channel(
      "flow",
      every(1, 640),
      Array.from({ length: 640 }, (_, i) => (i >= 150 && i < 330 ? Number.NaN : 1)),
    );
    const [points] = columnSeries([drawnOf(holed)], span(0, 640), 4, same).values;
    expect(points.slice(0, 8)).toEqual([1, 1, null, null, 1, 1, 1, 1]);

    const slow = channel("flow", at([0, 300, 600]), [1, 1, 1]);
    const drawn = columnSeries([drawnOf(slow)], span(0, 640), 16, same).values[0];
    expect(drawn).toContain(undefined);
    expect(drawn).not.toContain(null);
    const silent = columnSeries([drawnOf(slow, [span(0, 300)])], span(0, 640), 16, same).values[0];
    expect(silent).toContain(null);
  });
});

test("a value that holds does not hold while the log is silent", () => {
  const held = channel("flow", onChange([0, 900], 1000), [1, 2]);
  const [points] = columnSeries([drawnOf(held, [span(200, 800)])], span(0, 1000), 10, same).values;
  expect(
    points
      .slice(0, 20)
      .map((p) => (p === null ? "." : "#"))
      .join(""),
  ).toBe("####............####");
});

describe("drawn as samples", () => {
  test("a gap is a break between its neighbours, a missing value a break in its place", () => {
    const log = channel("pressure", at([0, 1, 10, 11]), [5, 6, Number.NaN, 8]);
    const { times, values } = sampleSeries([drawnOf(log, [span(1, 10)])], [samplesOf(log)], same);
    expect([...times]).toEqual([0, 1, 5.5, 10, 11]);
    expect(values[0]).toEqual([5, 6, null, null, 8]);
  });

  test("channels of two loggers share one time axis; where one has no sample its line runs on", () => {
    const fast = channel("pressure", every(1, 3), [1, 2, 3]);
    const slow = channel("pressure", every(2, 2), [7, 9]);
    const { times, values } = sampleSeries([drawnOf(fast), drawnOf(slow)], [samplesOf(fast), samplesOf(slow)], same);
    expect([...times]).toEqual([0, 1, 2]);
    expect(values).toEqual([
      [1, 2, 3],
      [7, undefined, 9],
    ]);
  });
});

test("a channel's gaps are the record's and its own, in order", () => {
  const fault = (channelName: string | null, from: number, kind: "gap" | "spike" = "gap") => ({
    kind,
    channel: channelName,
    from: seconds(from),
    to: seconds(from + 1),
    note: { kind: "no-samples" as const },
  });
  expect(gapsOf([fault("P1", 9), fault(null, 3), fault("P2", 1), fault("P1", 2, "spike")], "P1").map(({ from }) => from)).toEqual([3, 9]);
});
