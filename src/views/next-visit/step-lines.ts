import type { Advice, AdviceId, AmountId, CautionId } from "../../../shared/findings/advice";
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
  /** Whether something is altered or bought, rather than looked at or read. */
  readonly isChange: boolean;
  readonly title: string;
  readonly words: AdviceWords;
  /** Each amount with the calculation that opens under it; `isNow` where it is what the log shows, not what is to be set. */
  readonly amounts: readonly { readonly text: string; readonly calculation: string; readonly isNow: boolean }[];
  /** Said here for the first time, in full. */
  readonly cautions: readonly CautionWords[];
  /** Said in full at an earlier step: here they stand in short. */
  readonly again: readonly CautionWords[];
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

/** Amounts that tell how things are: what to expect of a reading, not what to make of it. */
const AS_IT_IS: readonly AmountId[] = ["precharge-now", "surge-period-now", "leak-per-day"];

/** Cautions that hold whatever one does: they stand once, above all steps, and the others each at its own. */
export const FOR_EVERY_STEP: readonly CautionId[] = ["local-codes-first", "qualified-people", "equipment-instructions"];

/**
 * The steps in the order of the work, as the advice has them; a reading is asked for once, at the first step that brings it.
 * @param notMet names of the acceptance sheet's checks that are not met
 */
export function stepLines(
  advice: readonly Advice[],
  checklist: Checklist,
  units: UnitChoice,
  notMet: readonly string[] = [],
): readonly StepLine[] {
  const asked = new Set<FactKey>();
  const said = new Set<CautionId>();
  return advice.map((step) => {
    const words = sayAdvice(step, units, notMet);
    const entry = entryOf(checklist, step.id);
    const own = step.cautions.filter((id) => !FOR_EVERY_STEP.includes(id));
    const [again, first] = [own.filter((id) => said.has(id)), own.filter((id) => !said.has(id))];
    for (const id of first) said.add(id);
    return {
      id: step.id,
      kind: sayStep(step.step),
      isChange: step.step === "change" || step.step === "bring",
      title: stepTitle(step.id),
      words,
      amounts: step.amounts.map((amount, i) => ({
        text: words.amounts[i],
        calculation: sayCalculation(amount, units),
        isNow: AS_IT_IS.includes(amount.id),
      })),
      cautions: first.map(cautionWords),
      again: again.map(cautionWords),
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
