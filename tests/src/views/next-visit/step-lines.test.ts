import { expect, test } from "vitest";
import type { Advice } from "../../../../shared/findings/advice";
import { EMPTY_CHECKLIST, withEntry } from "../../../../shared/findings/checklist";
import { PASCAL_PER_PSI } from "../../../../shared/units/pressure";
import { METRIC_UNITS, US_UNITS } from "../../../../shared/units/unit-choice";
import { cautionWords } from "../../../../shared/wording/caution";
import { FOR_EVERY_STEP, stepLines } from "../../../../src/views/next-visit/step-lines";

const step = (id: Advice["id"], part: Partial<Advice> = {}): Advice => ({
  id,
  answers: ["precharge-low"],
  step: "change",
  amounts: [],
  trust: null,
  expect: null,
  effect: null,
  because: { cause: "precharge-low", confidence: 0.7, reason: null },
  sources: [],
  cautions: ["isolate-power", "relieve-water-first"],
  ...part,
});
const raise = step("raise-precharge", {
  amounts: [
    {
      id: "precharge-by-practice",
      quantity: "gaugePressure",
      low: 32 * PASCAL_PER_PSI,
      high: 37 * PASCAL_PER_PSI,
      basis: "common practice",
      inputs: [{ name: "set-pressure", quantity: "gaugePressure", value: 52 * PASCAL_PER_PSI, from: "given" }],
    },
  ],
});

test("steps keep the order of the work and carry their cautions", () => {
  const lines = stepLines([step("check-precharge"), raise], EMPTY_CHECKLIST, US_UNITS);
  expect(lines.map((line) => line.id)).toEqual(["check-precharge", "raise-precharge"]);
  const all = lines.map((line) => [...line.cautions, ...line.again]);
  expect(all.every((cautions) => cautions.some((caution) => caution.text.includes("lock it out")))).toBe(true);
});
test("a caution stands in full at the first step that needs it, and in short at every later one", () => {
  const frosty = step("move-sensor", { cautions: ["isolate-power", "frost"] });
  const lines = stepLines([step("check-precharge"), raise, frosty], EMPTY_CHECKLIST, US_UNITS);
  const [isolate, relieve, frost] = (["isolate-power", "relieve-water-first", "frost"] as const).map(cautionWords);
  expect(lines.map((line) => [line.cautions, line.again])).toEqual([
    [[isolate, relieve], []],
    [[], [isolate, relieve]],
    [[frost], [isolate]],
  ]);
});
test("what the log shows of now is not mistaken for an amount to set", () => {
  const now = { ...raise.amounts[0], id: "precharge-now", basis: "physics" } as const;
  const [line] = stepLines([{ ...raise, amounts: [...raise.amounts, now] }], EMPTY_CHECKLIST, US_UNITS);
  expect(line.amounts.map(({ isNow }) => isNow)).toEqual([false, true]);
});
test("no caution is lost: what does not stand at its step stands above all steps", () => {
  const cautions = ["isolate-power", "local-codes-first", "frost"] as const;
  const [line] = stepLines([step("move-sensor", { cautions })], EMPTY_CHECKLIST, US_UNITS);
  const shown = [...line.cautions, ...FOR_EVERY_STEP.map(cautionWords)].map((caution) => caution.text);
  for (const id of cautions) expect(shown).toContain(cautionWords(id).text);
});
test("an amount comes with its calculation, both in the reader's units", () => {
  const [us] = stepLines([raise], EMPTY_CHECKLIST, US_UNITS);
  expect(us.amounts[0].text).toContain("32 to 37\u202fpsi"); // 15 to 20 psi below 52 psi: common practice, no source
  expect(us.amounts[0].calculation).toContain("52.0\u202fpsi (given)");
  const [metric] = stepLines([raise], EMPTY_CHECKLIST, METRIC_UNITS);
  expect(metric.amounts[0].text).toContain("2.2 to 2.6\u202fbar");
});
test("a reading is asked for once, at the first step that brings it", () => {
  const lines = stepLines([step("check-precharge"), raise, step("nothing-to-change")], EMPTY_CHECKLIST, US_UNITS);
  expect(lines.map((line) => line.reading)).toEqual(["precharge", null, null]);
});
test("ticks and notes stay with their step", () => {
  const ticked = withEntry(EMPTY_CHECKLIST, { step: "raise-precharge", done: true, note: "by hand pump" });
  const lines = stepLines([step("check-precharge"), raise], ticked, US_UNITS);
  expect(lines.map((line) => [line.done, line.note])).toEqual([
    [false, ""],
    [true, "by hand pump"],
  ]);
});
test("an entry that says nothing any more is dropped", () => {
  const ticked = withEntry(EMPTY_CHECKLIST, { step: "raise-precharge", done: true, note: "" });
  expect(withEntry(ticked, { step: "raise-precharge", done: false, note: "" })).toEqual(EMPTY_CHECKLIST);
});
