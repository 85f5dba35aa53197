import Papa from "papaparse";
import { expect, test } from "vitest";
import { eventsCsv } from "../../../src/report/events-csv";
import { exampleDocument } from "../../builders/report-input";

const rows = Papa.parse<Record<string, string>>(eventsCsv(exampleDocument()).trim(), { header: true }).data;

test("every run, wave, steady stretch, place and log fault is a row, in the order of time", () => {
  expect(rows.map(({ event }) => event)).toEqual(["run", "short run", "oscillation", "log fault: gap", "steady flow"]);
  expect(rows.map(({ seconds }) => Number(seconds))).toEqual([120, 30, 600, 300, 600]);
});
test("values carry their unit and interval; a minus stays a number", () =>
  expect(rows.at(-1)).toMatchObject({ value: "-5", low: "-9", high: "-1", unit: "Pa of drift" }));
test("a note that begins as a formula is guarded", () => expect(rows[3].note).toBe("'=no rows"));
