import { expect, test } from "vitest";
import { doubtfulSentinel, findSentinels, strangeSentinel } from "../../../../analysis/import/columns/sentinels";

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
