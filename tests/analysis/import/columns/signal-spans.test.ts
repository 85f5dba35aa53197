import { describe, expect, test } from "vitest";
import { importLog, NO_CHOICES } from "../../../../analysis/import/import-log";
import { logFile } from "../../../builders/log-file";
import { iso, rows, table, told } from "../../../builders/log-rows";

/** A signal that stands a tenth, two tenths and so on of its span above its lower end. */
const log = (above: string, heading: string, low: number, high: number) =>
  table(
    `${above}Time,"${heading}"`,
    rows(40, 10, (d, i) => `${iso(d)},${(low + ((high - low) * (1 + (i % 5))) / 10).toFixed(4)}`),
  );

/** The first three values in bar, rounded to what the file writes. */
const bars = (values: ArrayLike<number>) =>
  Array.from(values)
    .slice(0, 3)
    .map((value) => Math.round(value / 1e3) / 100);

// the line through the two ends of a span: 10 % of it stands for 1 bar of 0 to 10
describe("a signal of any span that the file names stands for its range", () => {
  test.each([
    ["Pressure: 0.5-4.5 V = 0-10 bar\n", "Pressure (V)", 0.5, 4.5],
    ["Sensor: 0.5..4.5 V corresponds to 0..10 bar\n", "Pressure (V)", 0.5, 4.5],
    ["Pressure: 0,5-4,5 V = 0-10 bar\n", "Pressure (V)", 0.5, 4.5],
    ["", "Pressure (V) range 0.5 to 4.5 V, 0 to 10 bar", 0.5, 4.5],
    ["", "Pressure (V) [0.5 V = 0 bar, 4.5 V = 10 bar]", 0.5, 4.5],
    ["", "Pressure [0.5-4.5 V = 0-10 bar]", 0.5, 4.5],
    ["", "Pressure (V), 0.2-3 V = 0-10 bar", 0.2, 3],
    ["Pressure: 0-3.3 V = 0-10 bar\n", "Pressure (V)", 0, 3.3],
    ["Pressure: 0-100 mV = 0-10 bar\n", "Pressure (mV)", 0, 100],
    ["Pressure: 0-50 mA = 0-10 bar\n", "Pressure (mA)", 0, 50],
    ["Pressure: 4-20 mA = 0-10 bar\n", "Pressure (mA)", 4, 20],
    ["Pressure: 1-5 V = 0-10 bar\n", "Pressure (V)", 1, 5],
  ])("%s%s", async (above, heading, low, high) => {
    const { record, asked } = await told(log(above, heading, low, high));
    expect({ asked, values: bars(record.channels[0].values) }).toEqual({ asked: [], values: [1, 2, 3] });
  });
  test("where only the span is named the range is asked, and applied to that span", async () => {
    const text = log("", "Pressure 0.5-4.5 V (V)", 0.5, 4.5);
    const id = "range:Pressure 0.5-4.5 V (V)";
    expect((await told(text)).asked).toEqual([id]);
    const { record } = await importLog([logFile(text, "log.csv")], { ...NO_CHOICES, answers: { [id]: "0..10 bar" } });
    expect(bars(record.channels[0].values)).toEqual([1, 2, 3]);
  });
  test("where nothing is named the answer may name the span too", async () => {
    const answers = { "range:Pressure (V)": "0.5-4.5 V = 0..10 bar" };
    const { record } = await importLog([logFile(log("", "Pressure (V)", 0.5, 4.5), "log.csv")], { ...NO_CHOICES, answers });
    expect(bars(record.channels[0].values)).toEqual([1, 2, 3]);
  });
});
