import { expect, test } from "vitest";
import { NO_CHOICES } from "../../../../analysis/import/import-log";
import { answer, chooseColumn, forgetColumn, hasChoices, openQuestions, withChoices } from "../../../../src/views/bring-in/choices";
import { fileLayout, layoutColumn } from "../../../builders/file-layouts";

test("an answer replaces the earlier one, and a blank one takes it back", () => {
  const dmy = answer(NO_CHOICES, "date-order", "dmy");
  expect(answer(dmy, "date-order", " mdy ").answers).toEqual({ "date-order": "mdy" });
  expect(answer(dmy, "date-order", "").answers).toEqual({});
  expect(hasChoices(answer(dmy, "date-order", ""))).toBe(false);
});
test("an answer to a column named like an object's own parts is kept as any other", () => {
  expect(Object.entries(answer(NO_CHOICES, "unit:__proto__", "psi").answers)).toEqual([["unit:__proto__", "psi"]]);
});
test("a column as chosen shows at once and says who chose it", () => {
  const layout = fileLayout({ columns: [layoutColumn({ heading: "Ch1", role: "flow", unit: "gpm", certainty: 0.4 })] });
  const [column] = withChoices(layout, chooseColumn(NO_CHOICES, "Ch1", "pressure", "bar")).columns;
  expect(column).toMatchObject({ role: "pressure", unit: "bar", certainty: 1, reason: [{ kind: "chosen-just-now" }] });
});
test("another role without a unit lets go of the unit that was read; the same role keeps it", () => {
  const layout = fileLayout({ columns: [layoutColumn({ heading: "Ch1", role: "flow", unit: "gpm" })] });
  expect(withChoices(layout, chooseColumn(NO_CHOICES, "Ch1", "pressure", null)).columns[0].unit).toBeNull();
  expect(withChoices(layout, chooseColumn(NO_CHOICES, "Ch1", "flow", null)).columns[0].unit).toBe("gpm");
});
test("a column can go back to what was read", () => {
  const chosen = chooseColumn(NO_CHOICES, "Ch1", "pressure", "bar");
  expect(forgetColumn(chosen, "Ch1")).toEqual(NO_CHOICES);
});
test("an answered question is no longer open", () => {
  const question = { id: "date-order", asks: { kind: "interval" } as const, options: ["dmy", "mdy"], assumed: "dmy" };
  expect(openQuestions([question], NO_CHOICES)).toEqual([question]);
  expect(openQuestions([question], answer(NO_CHOICES, "date-order", "dmy"))).toEqual([]);
});
