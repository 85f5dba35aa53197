import { expect, test } from "vitest";
import { chartOptions, type Looks, type PathBuilders } from "../../src/charts/chart-options";
import { timeTicks } from "../../src/charts/time-axis";
import { span } from "../builders/trace";

/** Builders of lines that are not drawn here. */
const NO_PATHS = { linear: () => () => null, stepped: () => () => null, bars: () => () => null } as unknown as PathBuilders;
const SPEC = { lines: [], x: null, y: { title: "", low: 0, high: 1 }, marks: [], axisWidth: 50 } as const;

/** What the axis writes at multiples of a step. */
function labels(step: number, locale: string | null): readonly string[] {
  const looks = { colours: {}, font: "13px sans-serif", heavy: false, locale } as unknown as Looks;
  const options = chartOptions(SPEC, { width: 600, height: 200 }, looks, NO_PATHS, { low: 0, high: 1, columns: false });
  const write = options.axes?.[1].values as unknown as (
    plot: null,
    values: readonly number[],
    axis: number,
    space: number,
    step: number,
  ) => string[];
  return write(
    null,
    MULTIPLES.map((k) => k * step),
    1,
    24,
    step,
  );
}
const MULTIPLES = [-4, -1, 0, 1, 2, 3, 7, 41, 999];
/** Steps of one, two, two and a half and five times each power of ten, as charts are divided by common practice, no source. */
const STEPS = [-4, -3, -2, -1, 0, 1, 2, 3].flatMap((power) => [1, 2, 2.5, 5].map((one) => one * 10 ** power));

test("a label of a value axis is the very value of its tick: none is rounded, none stands twice", () => {
  for (const step of STEPS) {
    const all = labels(step, null);
    expect(new Set(all).size).toBe(MULTIPLES.length);
    all.forEach((label, i) => {
      expect(Number(label.replace("\u2212", "-")), `${label} for ${MULTIPLES[i]} x ${step}`).toBeCloseTo(MULTIPLES[i] * step, 9);
    });
  }
});

test("the same in a locale that writes a comma", () => {
  expect(labels(0.25, "de-DE").slice(3, 6)).toEqual(["0,25", "0,50", "0,75"]);
});

test.each([
  ["UTC", 0],
  ["Asia/Tokyo", 9], // UTC+9 without summer time: IANA time zone database
])("a label of the time axis is its tick's time of day in %s", (zone, hours) => {
  const epoch = Date.UTC(2026, 2, 2, 3, 4, 5) / 1000;
  for (const length of [16, 90, 600, 3600, 6 * 3600, 86_400, 3 * 86_400]) {
    const ticks = timeTicks(span(0, length), { kind: "absolute", epoch, zone }, false, 8, null);
    expect(ticks.length).toBeGreaterThan(1);
    for (const { at, label } of ticks) {
      const local = new Date(Math.round((epoch + at + hours * 3600) * 1000)).toISOString().slice(11, 19);
      if (/^\d\d:\d\d/.test(label)) expect(local.startsWith(label), `${label} at ${local}`).toBe(true);
      else expect(local).toBe("00:00:00"); // a label of a day stands at its beginning
    }
  }
});
