import { describe, expect, test } from "vitest";
import { around, between, centred, fitted, moved, wholeWindow, zoomed } from "../../../../src/views/trace/trace-window";
import { span } from "../../../builders/trace";

const HOUR = 3600;

describe("the window on the trace", () => {
  test("zooms about the instant under the pointer, which stays where it is", () => {
    const closer = zoomed(span(0, 1000), 0.5, 250, HOUR);
    expect(closer).toEqual(span(125, 625));
    expect((250 - closer.from) / (closer.to - closer.from)).toBe(0.25);
  });
  test("never leaves the record and never grows beyond it", () => {
    expect(moved(span(0, 100), -50, HOUR)).toEqual(span(0, 100));
    expect(moved(span(HOUR - 100, HOUR), 50, HOUR)).toEqual(span(HOUR - 100, HOUR));
    expect(zoomed(span(0, 1000), 99, 10, HOUR)).toEqual(wholeWindow(HOUR));
    expect(fitted(span(-500, 2 * HOUR), HOUR)).toEqual(wholeWindow(HOUR));
  });
  test("never becomes so narrow that nothing is left", () => {
    let window = span(0, HOUR);
    for (let i = 0; i < 80; i++) window = zoomed(window, 0.5, 1800, HOUR);
    expect(window.to - window.from).toBeCloseTo(0.05, 6);
  });
  test("shows a place with surroundings, at least a quarter of a minute on either side", () => {
    expect(around(span(1000, 1100), HOUR)).toEqual(span(900, 1200));
    expect(around(span(1000, 1000), HOUR)).toEqual(span(985, 1015));
  });
  test("goes to a time without changing its width", () => {
    expect(centred(span(0, 100), 500, HOUR)).toEqual(span(450, 550));
  });
  test("moves by even ratios from one width to another", () => {
    expect(between(span(0, 100), span(0, 10000), 0.5).to - between(span(0, 100), span(0, 10000), 0.5).from).toBeCloseTo(1000, 6);
  });
});
