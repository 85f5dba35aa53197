import { describe, expect, test } from "vitest";
import {
  around,
  between,
  centred,
  extentOf,
  fitted,
  isClosest,
  moved,
  wholeWindow,
  zoomed,
} from "../../../../src/views/trace/trace-window";
import { span } from "../../../builders/trace";

const HOUR = 3600;
/** An hour read every second. */
const RECORD = extentOf(HOUR, 1);

describe("the window on the trace", () => {
  test("zooms about the instant under the pointer, which stays where it is", () => {
    const closer = zoomed(span(0, 1000), 0.5, 250, RECORD);
    expect(closer).toEqual(span(125, 625));
    expect((250 - closer.from) / (closer.to - closer.from)).toBe(0.25);
  });
  test("never leaves the record and never grows beyond it", () => {
    expect(moved(span(0, 100), -50, RECORD)).toEqual(span(0, 100));
    expect(moved(span(HOUR - 100, HOUR), 50, RECORD)).toEqual(span(HOUR - 100, HOUR));
    expect(zoomed(span(0, 1000), 99, 10, RECORD)).toEqual(wholeWindow(HOUR));
    expect(fitted(span(-500, 2 * HOUR), RECORD)).toEqual(wholeWindow(HOUR));
  });
  const closestOf = (extent: typeof RECORD) => {
    let window = wholeWindow(extent.duration);
    for (let i = 0; i < 80; i++) window = zoomed(window, 0.5, 1800, extent);
    return window;
  };
  test("goes no closer than the readings have something to show", () => {
    const closest = closestOf(RECORD);
    expect(closest.to - closest.from).toBeCloseTo(8, 6);
    expect(isClosest(closest, RECORD)).toBe(true);
    expect(isClosest(zoomed(closest, 2, 1800, RECORD), RECORD)).toBe(false);
  });
  test("never becomes so narrow that nothing is left, whatever the readings", () => {
    const uneven = closestOf(extentOf(HOUR, Infinity));
    expect(uneven.to - uneven.from).toBeCloseTo(0.05, 6);
  });
  test("the whole of a short record is not called close", () => {
    const short = extentOf(5, 1);
    expect(wholeWindow(5)).toEqual(fitted(span(0, 5), short));
    expect(isClosest(wholeWindow(5), short)).toBe(false);
  });
  test("shows a place with surroundings, at least a quarter of a minute on either side", () => {
    expect(around(span(1000, 1100), RECORD)).toEqual(span(900, 1200));
    expect(around(span(1000, 1000), RECORD)).toEqual(span(985, 1015));
  });
  test("goes to a time without changing its width", () => {
    expect(centred(span(0, 100), 500, RECORD)).toEqual(span(450, 550));
  });
  test("moves by even ratios from one width to another", () => {
    expect(between(span(0, 100), span(0, 10000), 0.5).to - between(span(0, 100), span(0, 10000), 0.5).from).toBeCloseTo(1000, 6);
  });
});
