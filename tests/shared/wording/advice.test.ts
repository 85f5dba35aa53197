import { expect, test } from "vitest";
import { advise } from "../../../analysis/advice/advise";
import { ADVICE_IDS, type Advice, AMOUNT_IDS, CAUTION_IDS, EXPECT_IDS, TRUST_IDS } from "../../../shared/findings/advice";
import { METRIC_UNITS, US_UNITS } from "../../../shared/units/unit-choice";
import { sayAdvice } from "../../../shared/wording/advice";
import { amountWords, sayAmount, sayCalculation } from "../../../shared/wording/amount";
import { sayCaution } from "../../../shared/wording/caution";
import { SITE_AS_WRITTEN, segmentsWith, siteOf, soundOutcomes } from "../../builders/outcomes";

const plain = (text: string) => text.replace(/[\u202f\u00a0]/g, " ");
const blank: Advice = {
  id: "log-more",
  answers: [],
  step: "look",
  amounts: [],
  trust: null,
  expect: null,
  effect: null,
  because: { cause: null, confidence: null, reason: null },
  sources: [],
  cautions: [],
};

test("every step, trust and expectation has its sentences", () => {
  for (const id of ADVICE_IDS) {
    const said = sayAdvice({ ...blank, id }, US_UNITS);
    expect(said.does).toMatch(/^[A-Z].*\.$/);
    expect(said.ifWrong).toMatch(/^[A-Z].*\.$/);
  }
  for (const id of TRUST_IDS) expect(sayAdvice({ ...blank, trust: { id, numbers: {} } }, US_UNITS).trust).toMatch(/\.$/);
  for (const id of EXPECT_IDS) expect(sayAdvice({ ...blank, expect: { id, numbers: {} } }, US_UNITS).expect).toMatch(/\.$/);
});

test("where nothing is to be changed, what the acceptance sheet does not meet is said, and of other steps it is not", () => {
  const dip = ["Worst dip when a draw begins"];
  expect(sayAdvice({ ...blank, id: "nothing-to-change" }, US_UNITS).does).toBe(
    "Leave the settings as they are, and keep this log to compare with.",
  );
  expect(sayAdvice({ ...blank, id: "nothing-to-change" }, US_UNITS, dip).does).toMatch(
    /not everything is met on the acceptance sheet: worst dip when a draw begins\. Look into that before any setting is changed/,
  );
  expect(sayAdvice(blank, US_UNITS, dip)).toEqual(sayAdvice(blank, US_UNITS));
});

test("every caution carries its source mark, every amount its formula and source", () => {
  for (const id of CAUTION_IDS) expect(sayCaution(id)).toMatch(/\.\s\[.+\]$/);
  for (const id of AMOUNT_IDS) expect(amountWords(id).source.length * amountWords(id).formula.length).toBeGreaterThan(0);
});

test("an amount and its calculation follow the reader's units and say where each number is from", () => {
  const causes = [{ id: "precharge-low", confidence: 0.83, besideFirst: null, for: [], against: [], toSeparate: null }] as const;
  const steps = advise(causes, soundOutcomes(), segmentsWith(null), siteOf({ ...SITE_AS_WRITTEN, precharge: "20 psi" }));
  const raise = steps.find((a) => a.id === "raise-precharge");
  const amount = raise?.amounts[0];
  if (raise === undefined || amount === undefined) throw new Error("no step");
  expect(plain(sayAmount(amount, US_UNITS))).toBe("Precharge (common practice): 32 to 37 psi");
  expect(plain(sayAmount(amount, METRIC_UNITS))).toBe("Precharge (common practice): 2.2 to 2.6 bar");
  expect(plain(sayCalculation(amount, US_UNITS))).toContain("set pressure 52.0 psi (given). Source: common practice, no source.");
  expect(plain(sayAdvice(raise, US_UNITS).because)).toBe("“Precharge too low” stands at 83 %.");
  const softness = raise.amounts.find((a) => a.id === "softness-higher-setting");
  if (softness === undefined) throw new Error("no softness");
  expect(plain(sayAmount(softness, US_UNITS))).toMatch(/0\.23 gal per psi$/);
});
