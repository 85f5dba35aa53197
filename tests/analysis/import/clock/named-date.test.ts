import { expect, test } from "vitest";
import { dateInName } from "../../../../analysis/import/clock/named-date";
import { importLog, NO_CHOICES } from "../../../../analysis/import/import-log";
import { logFile } from "../../../builders/log-file";

/** ISO 8601 dates and the dotted form of DIN 5008; two digits that may be day or month settle nothing. */
test("the date in a file's name", () => {
  expect(dateInName("log_20250217.csv")).toBe("2025-02-17");
  expect(dateInName("visit.zip/2025-02-17 pump.csv")).toBe("2025-02-17");
  expect(dateInName("P1_17.02.2025.csv")).toBe("2025-02-17");
  expect(dateInName("03.02.2025.csv")).toBe("2025-02-03");
  expect(dateInName("17-02-2025.csv")).toBe("2025-02-17");
  expect(dateInName("03-02-2025.csv")).toBeNull();
  expect(dateInName("serial 20251399.csv")).toBeNull();
  expect(dateInName("2025-02-17/log.csv")).toBeNull();
});

const clock = (minutes: number) => `${String(Math.floor(minutes / 60) % 24).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}:00`;
const part = (name: string, from: number) =>
  logFile(
    `Time,Pressure (bar)\n${Array.from({ length: 120 }, (_, i) => `${clock(from + i)},${(3 + ((i * 13) % 40) / 100).toFixed(2)}`).join("\n")}\n`,
    name,
  );
const files = [part("log_20250218.csv", 0), part("log_20250217.csv", 22 * 60)];

test("two days of one log that carry times only follow each other by their names, and the date is asked", async () => {
  const { record } = await importLog(files);
  expect(record.channels).toHaveLength(1);
  expect(record.clock).toMatchObject({ kind: "absolute", epoch: Date.UTC(2025, 1, 17, 22) / 1000 });
  expect(record.duration).toBe(239 * 60);
  expect(record.questions.map(({ id, options, assumed }) => [id, options, assumed])).toEqual([
    ["start-time", ["2025-02-17", "unknown"], "2025-02-17"],
  ]);
});

test("the answer is the day of the first of them", async () => {
  const { record } = await importLog(files, { ...NO_CHOICES, answers: { "start-time": "2025-03-31" } });
  expect(record.clock).toMatchObject({ kind: "absolute", epoch: Date.UTC(2025, 2, 31, 22) / 1000 });
  expect([record.duration, record.questions]).toEqual([239 * 60, []]);
});

test("who does not know the date leaves the record without one", async () => {
  const { record } = await importLog([files[0]], { ...NO_CHOICES, answers: { "start-time": "unknown" } });
  expect(record.clock.kind).toBe("elapsed");
});
