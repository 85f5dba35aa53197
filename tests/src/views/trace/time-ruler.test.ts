import { describe, expect, test } from "vitest";
import { labelsIn, timeTicks } from "../../../../src/charts/time-axis";
import { placeTicks } from "../../../../src/views/trace/time-ruler";
import { span } from "../../../builders/trace";

const DAY = 86400;
const clock = { kind: "absolute", epoch: Date.UTC(2026, 2, 2, 3, 4) / 1000, zone: null } as const;
/** From the plot of a 360 px phone to that of a wide desk. */
const WIDTHS = [276, 306, 660, 900, 1700];
const LENGTHS = Array.from({ length: 60 }, (_, i) => 3 * DAY * 0.85 ** i).filter((length) => length > 20);
const LOCALES = ["en-US", "de-DE", "fi-FI", null];

describe.each(LOCALES)("in the locale %s", (locale) => {
  test.each([false, true])("the time axis has two labels at least, and none over another (elapsed: %s)", (elapsed) => {
    for (const width of WIDTHS) {
      for (const length of LENGTHS) {
        const [from, to] = [1.37 * DAY, 1.37 * DAY + length];
        const toX = (t: number) => ((t - from) / (to - from)) * width;
        const ticks = timeTicks(span(from, to), clock, elapsed, (letters) => labelsIn(width, letters), locale);
        const placed = placeTicks(ticks, toX, width);
        const where = `${width} px, ${length} s`;
        expect(placed.length, where).toBeGreaterThanOrEqual(2);
        for (const row of [placed.map(({ x, label, isEnd }) => ({ x, text: label, isEnd })), days(placed)]) {
          for (let i = 1; i < row.length; i++) {
            expect(leftOf(row[i]) - rightOf(row[i - 1]), `${row[i - 1].text} | ${row[i].text}, ${where}`).toBeGreaterThan(0);
          }
        }
      }
    }
  });
});

type Label = { readonly x: number; readonly text: string; readonly isEnd: boolean };
const days = (placed: ReturnType<typeof placeTicks>): Label[] =>
  placed.flatMap(({ x, day, isEnd }) => (day === null ? [] : [{ x, text: day, isEnd }]));
/** Of a letter of the axis at 13 px in a wide sans: 0.57 em on the average of digits, small letters and signs. */
const LETTER = 7.4;
const leftOf = ({ x, text, isEnd }: Label) => (isEnd ? x + 12 - LETTER * text.length : x - (LETTER * text.length) / 2);
const rightOf = ({ x, text, isEnd }: Label) => (isEnd ? x + 12 : x + (LETTER * text.length) / 2);

test("a new day at the end of the axis keeps its name, and the first gives way", () => {
  const tick = (at: number, label: string, day: string | null) => ({ at, label, day });
  const ticks = [tick(0, "23:00", "Mon, Mar 2"), tick(60, "00:00", "Tue, Mar 3"), tick(120, "01:00", null)];
  expect(placeTicks(ticks, (t) => t, 200).map(({ day }) => day)).toEqual([null, "Tue, Mar 3", null]);
  expect(placeTicks(ticks, (t) => 2 * t, 400).map(({ day }) => day)).toEqual(["Mon, Mar 2", "Tue, Mar 3", null]);
});
