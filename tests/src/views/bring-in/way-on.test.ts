import { expect, test } from "vitest";
import { NO_CHOICES } from "../../../../analysis/import/import-choices";
import { wayOn, withInterval, withTimeColumn } from "../../../../src/views/bring-in/way-on";

test("a file without a time offers its columns and the interval", () => {
  expect(wayOn({ id: "no-time-column", file: "a.csv", row: 2, headings: ["P1", "Flow"] })).toEqual({ headings: ["P1", "Flow"] });
  expect(wayOn({ id: "one-column", file: "a.csv", row: 2, heading: "P1" })).toEqual({ headings: [] });
});
test("what no answer can mend offers none", () => {
  expect(wayOn({ id: "empty-file", file: "a.csv" })).toBeNull();
  expect(wayOn({ id: "not-text", file: "a.csv" })).toBeNull();
});
test("the answers are those that the reading asks for", () => {
  expect(withInterval(NO_CHOICES, "2 s", "").answers).toEqual({ interval: "2 s" });
  expect(withInterval(NO_CHOICES, "2 s", "2024-05-03 08:00").answers).toEqual({ interval: "2 s", "start-time": "2024-05-03 08:00" });
  expect(withTimeColumn(NO_CHOICES, "P1").columns).toEqual([{ heading: "P1", role: "time", unit: null }]);
});
