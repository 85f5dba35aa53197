import { expect, test } from "vitest";
import { sayOption, writtenAnswerExample } from "../../../shared/wording/question-option";

test("options are said in words, by the kind of the question", () => {
  expect(sayOption("date-order", "dmy")).toBe("day, month, year");
  expect(sayOption("column-role:Ch1", "other")).toBe("not used");
  expect(sayOption("reference:P1", "gauge")).toBe("above the air around (gauge)");
});
test("an option that has no words of its own stands as it is", () => {
  expect(sayOption("range:Ch1", "0..10 bar")).toBe("0..10 bar");
  expect(sayOption("unit:other", "other")).toBe("other");
});
test("only what cannot be listed may be written", () => {
  expect(writtenAnswerExample("range:Ch1")).toBe("0..10 bar");
  expect(writtenAnswerExample("date-order")).toBeNull();
});
