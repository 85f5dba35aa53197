import { expect, test } from "vitest";
import { readRange } from "../../../../analysis/import/columns/raw-signal";
import { readColumns } from "../../../../analysis/import/columns/read-columns";
import { NO_CHOICES } from "../../../../analysis/import/import-log";
import { columnsOf, contextOf } from "../../../builders/log-columns";

const read = (heading: string, ...rows: string[]) => readColumns(columnsOf(heading, rows), contextOf(), NO_CHOICES);

test("role and unit come from English headings", () => {
  const found = read(
    "Time|Pressure (psi)|Flow (gpm)|Pump speed, Hz|Motor current [A]|Total_gal|Water temp °C",
    "2024-05-01 10:00:00|52|10|45|3|100|12",
  );
  expect(found.map((c) => `${c.role} ${c.unit}`)).toEqual([
    "time null",
    "pressure psi",
    "flow gpm",
    "speed Hz",
    "current A",
    "volume gal",
    "temperature °C",
  ]);
});

test("a 4-20 mA signal without a range is asked for", () => {
  const [, column] = read("Time|Discharge pressure (mA)", "2024-05-01 10:00:00|8.1", "2024-05-01 10:00:01|8.4");
  expect(column.raw?.kind).toBe("4-20 mA");
  expect(column.questions.map((q) => q.id)).toEqual(["range:Discharge pressure (mA)"]);
});

test("a range in the heading is used", () => {
  const [, column] = read("Time|Pressure 4-20mA = 0-10 bar", "2024-05-01 10:00:00|12", "2024-05-01 10:00:01|12");
  expect(12 * column.factor + column.offset).toBeCloseTo(5e5, 3);
});

test("a line of nothing but letters after a first point costs no time", () => {
  expect(readRange(`4 mA = 0 ${"a".repeat(1000)}`)).toBeNull();
  expect(readRange("low 4 mA, 0 psi | high 20 mA, 100 psi")).toMatchObject({ low: 0, high: 100 });
});
