import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildPyramid, pyramidColumns, pyramidRange } from "../../../src/charts/pyramid";
import { at, channel, every, onChange } from "../../builders/record";

const least = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b), Infinity);
const greatest = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b), -Infinity);

describe("a pyramid never hides a value", () => {
  test("whatever the window, the columns hold every sample in it and nothing that is not in the record", () => {
    const value = fc.oneof({ weight: 9, arbitrary: fc.float({ min: -1000, max: 1000, noNaN: true }) }, fc.constant(Number.NaN));
    const records = fc.array(value, { minLength: 1, maxLength: 3000 });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(records, share, share, fc.integer({ min: 1, max: 60 }), (values, a, b, columns) => {
        const n = values.length;
        const pyramid = buildPyramid(channel("pressure", every(2, n), values), 2);
        const [from, to] = [Math.min(a, b) * 2 * n, Math.max(a, b) * 2 * n + 2];
        const drawn = pyramidColumns(pyramid, from, (to - from) / columns, columns);
        const inside = values.filter((v, i) => 2 * i >= from && 2 * i < to && !Number.isNaN(v));
        const shown = [...drawn.max].filter((v) => !Number.isNaN(v));
        if (inside.length > 0) {
          expect(greatest(shown)).toBeGreaterThanOrEqual(greatest(inside));
          expect(least([...drawn.min].filter((v) => !Number.isNaN(v)))).toBeLessThanOrEqual(least(inside));
        }
        for (const v of shown) expect(values).toContain(v);
      }),
      { numRuns: 150 },
    );
  });

  test("one spike among a million stands in its own column and its neighbours at most", () => {
    const values = new Float32Array(1_000_000);
    values[654_321] = 9;
    const pyramid = buildPyramid({ ...channel("pressure", every(1, 1), [0]), sampling: every(1, 1_000_000), values }, 1);
    const { max } = pyramidColumns(pyramid, 0, 1000, 1000);
    expect([...max.keys()].filter((c) => max[c] === 9)).toEqual([654]);
  });
});

describe("holes stay holes", () => {
  test("a missing stretch holds no value at any level", () => {
    const values = Array.from({ length: 4096 }, (_, i) => (i >= 1024 && i < 2048 ? Number.NaN : 1));
    const { max } = pyramidColumns(buildPyramid(channel("pressure", every(1, 4096), values), 1), 0, 256, 16);
    expect([...max].map((v) => (Number.isNaN(v) ? "." : "#")).join("")).toBe("####....########");
  });

  test("samples after a silence of the logger stand where they were taken", () => {
    const times = [...Array.from({ length: 100 }, (_, i) => i), ...Array.from({ length: 100 }, (_, i) => 5100 + i)];
    const pyramid = buildPyramid(channel("pressure", at(times), times), 1);
    const { min } = pyramidColumns(pyramid, 0, 500, 11);
    expect([...min.keys()].filter((c) => !Number.isNaN(min[c]))).toEqual([0, 10]);
  });

  test("a value logged on change holds until the next", () => {
    const pyramid = buildPyramid(channel("flow", onChange([0, 100, 900], 1000), [1, 2, 3]), 100);
    expect([...pyramidColumns(pyramid, 200, 200, 3).max]).toEqual([2, 2, 2]);
  });
});

test("the range of a channel without values is not known", () => {
  expect(pyramidRange(buildPyramid(channel("flow", every(1, 2), [Number.NaN, Number.NaN]), 1))).toBeNull();
  expect(pyramidRange(buildPyramid(channel("flow", every(1, 3), [2, Number.NaN, -1]), 1))).toEqual({ low: -1, high: 2 });
});
