import { expect, test } from "vitest";
import { sayOption, writtenAnswerExample } from "../../../shared/wording/question-option";

test("options are said in words, by the kind of the question", () => {
  expect(sayOption("date-order", "dmy", null)).toBe("day, month, year");
  expect(sayOption("column-role:Ch1", "other", null)).toBe("not used");
  expect(sayOption("reference:P1", "gauge", null)).toBe("above the air around (gauge)");
});
test("an option that has no words of its own stands as it is", () => {
  expect(sayOption("range:Ch1", "0..10 bar", null)).toBe("0..10 bar");
  expect(sayOption("unit:other", "other", null)).toBe("other");
});
test("only what cannot be listed may be written", () => {
  expect(writtenAnswerExample("range:Ch1")).toBe("0..10 bar");
  expect(writtenAnswerExample("date-order")).toBeNull();
});
// Order and names of a date as the Unicode CLDR gives them for these locales.
test("a start is a date of the reader's, and is answered as it stands in the file", () => {
  expect(sayOption("start-time", "2024-05-03", null)).toBe("2024-05-03");
  expect(sayOption("start-time", "2024-05-03", "de-DE")).toBe("3. Mai 2024");
  expect(sayOption("start-time", "2024-05-03 08:00:12Z", "en-US")).toBe("May 3, 2024 08:00:12 UTC");
});
