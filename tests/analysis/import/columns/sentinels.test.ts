import { describe, expect, test } from "vitest";
import { doubtfulSentinel, findSentinels, negativeSentinel, strangeSentinel } from "../../../../analysis/import/columns/sentinels";
import { bar, iso, rows, table, told } from "../../../builders/log-rows";

/** Four marks beside a hundred readings from 3 to 4, rising. */
const withMark = (mark: number) =>
  Float64Array.from([...Array.from({ length: 100 }, (_, i) => 3 + i / 100), mark, mark, mark, mark]).sort();

test("the end of a machine number is a mark, with its last digit as a decimal too", () => {
  for (const mark of [65535, 6553.5, 3276.7, -3276.8]) expect(findSentinels(withMark(mark))).toEqual([mark]);
  expect(findSentinels(withMark(6553.4))).toEqual([]);
});

test("minus one may be a reading: asked, never taken for a mark", () => {
  expect(findSentinels(withMark(-1))).toEqual([]);
  expect(doubtfulSentinel(withMark(-1))).toBe(-1);
  expect(doubtfulSentinel(withMark(0))).toBeNull();
});

test("a number that is no usual mark stands for missing only far off and more than once", () => {
  expect(strangeSentinel(withMark(850))).toBe(850);
  expect(strangeSentinel(withMark(12))).toBeNull();
  const readings = Array.from({ length: 100 }, (_, i) => 3 + i / 100);
  expect(strangeSentinel(Float64Array.from([...readings, 850]))).toBeNull();
  // a flow that is mostly off has no spread to measure a distance by
  expect(strangeSentinel(Float64Array.from([...Array.from({ length: 100 }, () => 0), 40, 40]))).toBeNull();
});

describe("the only number below 0 of a quantity that never is", () => {
  /** A flow of 0 half of the time, in tenths, and a few numbers more. */
  const flow = (...more: readonly number[]) =>
    Float64Array.from([...Array.from({ length: 100 }, (_, i) => (i % 2 === 0 ? 0 : 20 + (i % 9) / 10)), ...more]).sort();
  test("stands for missing", () => {
    for (const mark of [-1, -9.9, -5, -0.5]) expect(negativeSentinel(flow(mark, mark, mark))).toBe(mark);
  });
  test("is a reading where it comes once, near rest, beside others below 0, or most of the time", () => {
    for (const more of [[-1], [-0.1, -0.1, -0.1], [-1, -1, -0.3], Array.from({ length: 50 }, () => -1)])
      expect(negativeSentinel(flow(...more))).toBeNull();
  });
});

test("a mark below 0 is asked, taken for missing where no reading can be there and for a vacuum under a pressure", async () => {
  const text = table(
    "Time,Pressure (bar),Flow (L/min),Suction pressure (bar)",
    rows(
      80,
      10,
      (d, i) =>
        `${iso(d)},${i % 19 === 3 ? "-0.90" : bar(i)},${i % 17 === 4 ? "-1.0" : (20 + (i % 9) / 10).toFixed(1)},${i % 19 === 3 ? "-0.90" : bar(i)}`,
    ),
  );
  const { record } = await told(text);
  expect(record.questions.map(({ id, assumed }) => [id, assumed])).toEqual([
    ["sentinel:Pressure (bar)", "value"],
    ["sentinel:Flow (L/min)", "missing"],
  ]);
});

// 9.969209968386869e36 fills what is missing in files of the netCDF standard (OGC 10-090r3)
test("a number beyond any quantity stands for missing unasked", async () => {
  const text = table(
    "Time,Pressure (bar)",
    rows(80, 10, (d, i) => `${iso(d)},${i % 19 === 3 ? "9.96921e+36" : bar(i)}`),
  );
  const { record, asked } = await told(text);
  expect({ asked, missing: record.channels[0].values.filter(Number.isNaN).length }).toEqual({ asked: [], missing: 5 });
});
