import { expect, test } from "vitest";
import { columnsOf, contextOf, readBack } from "../../../builders/log-columns";

test("ISO stamps are read as UTC where the file names no zone", () => {
  const read = readBack(columnsOf("Time|P (bar)", ["2024-05-01T10:11:12|3", "2024-05-01T10:11:13|3"]));
  expect(read?.instants).toEqual(["2024-05-01T10:11:12Z", "2024-05-01T10:11:13Z"]);
  expect(read?.reading.patterns).toEqual(["YYYY-MM-DDThh:mm:ss.f"]);
  expect(read?.asked).toEqual([]);
});

test("a day above 12 settles the order of day and month", () => {
  const read = readBack(columnsOf("Time|P", ["12/05/2024 23:59:59|3", "13/05/2024 00:00:00|3"]));
  expect(read?.instants[1]).toBe("2024-05-13T00:00:00Z");
  expect(read?.asked).toEqual([]);
});

test("a date that reads both ways within one day is asked", () => {
  const read = readBack(columnsOf("Time|P", ["03/04/2024 10:00:00|3", "03/04/2024 10:00:10|3"]));
  expect(read?.asked).toEqual(["date-order"]);
});

test("date and time in two columns are one clock", () => {
  const read = readBack(columnsOf("Datum|Uhrzeit|Druck", ["01.05.2024|10:11:12|3", "01.05.2024|10:11:13|3"]));
  expect(read?.instants[0]).toBe("2024-05-01T10:11:12Z");
  expect(read?.reading.patterns).toEqual(["DD.MM.YYYY", "hh:mm:ss.f"]);
});

test("Unix seconds and milliseconds are read", () => {
  expect(readBack(columnsOf("timestamp|P", ["1714558272|3", "1714558273|3"]))?.instants[0]).toBe("2024-05-01T10:11:12Z");
  expect(readBack(columnsOf("timestamp|P", ["1714558272500|3", "1714558273500|3"]))?.instants[0]).toBe("2024-05-01T10:11:12.500Z");
});

test("elapsed seconds count from the start in the preamble", () => {
  const columns = columnsOf("Elapsed (s)|P", ["0|3", "10|3"]);
  expect(readBack(columns, contextOf(["Start time: 2024-05-01 10:00:00"]))?.instants[1]).toBe("2024-05-01T10:00:10Z");
  expect(readBack(columns)?.instants[1]).toBe("10");
});

test("spreadsheet day numbers lose the rounding of the file", () => {
  const rows = [0, 10, 25, 35].map((s) => `${(45413 + (36672 + s) / 86400).toFixed(5)}|3`);
  expect(readBack(columnsOf("Time|P", rows))?.reading.snap?.grid).toBe(1);
});

test("start and interval without a time column count the rows", () => {
  const read = readBack(columnsOf("P|Q", ["3|1", "3|1"]), contextOf(["Start: 2024-05-01 10:00:00", "Interval: 10 seconds"]));
  expect(read?.instants).toEqual(["2024-05-01T10:00:00Z", "2024-05-01T10:00:10Z"]);
});
