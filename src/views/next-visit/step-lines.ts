import type { Advice, AdviceId, CautionId } from "../../../shared/findings/advice";
import { type Checklist, entryOf } from "../../../shared/findings/checklist";
import type { FactKey } from "../../../shared/site/fact-key";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { type AdviceWords, sayAdvice } from "../../../shared/wording/advice";
import { sayCalculation } from "../../../shared/wording/amount";
import { type CautionWords, cautionWords } from "../../../shared/wording/caution";
import { sayStep, stepTitle } from "../../../shared/wording/step";

/** A step of the next visit with everything that belongs beside it. */
export type StepLine = {
  readonly id: AdviceId;
  readonly kind: string;
  readonly title: string;
  readonly words: AdviceWords;
  /** Each amount with the calculation that opens under it. */
  readonly amounts: readonly { readonly text: string; readonly calculation: string }[];
  readonly cautions: readonly CautionWords[];
  readonly sources: readonly string[];
  /** What is read off in this step and goes to the site facts. */
  readonly reading: FactKey | null;
  readonly done: boolean;
  readonly note: string;
};

/** Steps that end in a reading. */
const READINGS: Partial<Record<AdviceId, FactKey>> = {
  "stop-over-marked-pressure": "tankRatedPressure",
  "check-precharge": "precharge",
  "raise-precharge": "precharge",
  "lower-precharge": "precharge",
  "larger-tank": "tankVolume",
  "replace-tank": "tankVolume",
  "move-sensor": "sensorToTank",
  "check-pump-size": "pumpRatedFlow",
};

/** Cautions that hold whatever one does: they stand once, above all steps, and the others each at its own. */
export const FOR_EVERY_STEP: readonly CautionId[] = ["local-codes-first", "qualified-people", "equipment-instructions"];

/** The steps in the order of the work, as the advice has them; a reading is asked for once, at the first step that brings it. */
export function stepLines(advice: readonly Advice[], checklist: Checklist, units: UnitChoice): readonly StepLine[] {
  const asked = new Set<FactKey>();
  return advice.map((step) => {
    const words = sayAdvice(step, units);
    const entry = entryOf(checklist, step.id);
    return {
      id: step.id,
      kind: sayStep(step.step),
      title: stepTitle(step.id),
      words,
      amounts: step.amounts.map((amount, i) => ({ text: words.amounts[i], calculation: sayCalculation(amount, units) })),
      cautions: step.cautions.filter((id) => !FOR_EVERY_STEP.includes(id)).map(cautionWords),
      sources: step.sources,
      reading: firstAsked(READINGS[step.id] ?? null, asked),
      done: entry.done,
      note: entry.note,
    };
  });
}

function firstAsked(fact: FactKey | null, asked: Set<FactKey>): FactKey | null {
  if (fact === null || asked.has(fact)) return null;
  asked.add(fact);
  return fact;
}
