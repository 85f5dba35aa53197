import { expect, test } from "vitest";
import { importLog } from "../../../../analysis/import/import-log";
import { logFile } from "../../../builders/log-file";

/** Two places of one file that contradict each other: nothing but the person knows. Common practice, no source. */
const rows = Array.from({ length: 40 }, (_, i) => `2022-04-19 09:${String(i).padStart(2, "0")}:00;${360 + (i % 7)}`).join("\n");
const questionsOf = async (above: string, heading: string) => {
  const { record } = await importLog([logFile(`${above}\nTime;${heading}\n${rows}\n`)]);
  return record.questions.map(({ id, options, assumed }) => [id, options, assumed]);
};

test("a unit in the heading and another above the table are asked", async () => {
  const asked = [["unit:Channel 1 (bar)", ["bar", "kPa"], "bar"]];
  expect(await questionsOf("Channel 1: pressure, unit kPa", "Channel 1 (bar)")).toEqual(asked);
  expect(await questionsOf("Channel 1;Pressure;kPa", "Channel 1 (bar)")).toEqual(asked);
  expect(await questionsOf("Engineering unit: kPa", "Channel 1 (bar)")).toEqual(asked);
});

test("the same unit twice, a range in another unit, and a unit of another quantity are no contradiction", async () => {
  for (const above of [
    "Channel 1: pressure, unit kPa",
    "Channel 1: pressure, 0..10 bar",
    "Channel 1: pressure, range 1000 mbar",
    "Channel 1: L/min",
    "Channel 2: pressure, bar",
    "Battery: 3.6 V",
  ])
    expect(await questionsOf(above, "Channel 1 (kPa)")).toEqual([]);
});
