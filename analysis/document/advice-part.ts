import type { Advice } from "../../shared/findings/advice";
import type { Cause } from "../../shared/findings/cause";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { sayAdvice } from "../../shared/wording/advice";
import { sayCalculation } from "../../shared/wording/amount";
import { sayCause, sayToSeparate } from "../../shared/wording/cause";
import { sayCaution } from "../../shared/wording/caution";
import { sayReason } from "../../shared/wording/reason";
import { saySource } from "../../shared/wording/source";

/** Causes as sentences, ranked; their confidences sum to 1. */
export function writeCauses(causes: readonly Cause[], units: UnitChoice): FindingsDocument["causes"] {
  return causes.map((cause) => ({
    id: cause.id,
    name: sayCause(cause.id).name,
    confidence: cause.confidence,
    for: cause.for.map((reason) => sayReason(reason, units)),
    against: cause.against.map((reason) => sayReason(reason, units)),
    toSeparate: sayToSeparate(cause.toSeparate),
  }));
}

/**
 * Advice as sentences, in the order of the work: safety first, then look, measure, change, bring.
 * @param notMet names of the acceptance sheet's checks that are not met
 */
export function writeAdvice(advice: readonly Advice[], notMet: readonly string[], units: UnitChoice): FindingsDocument["advice"] {
  return advice.map((step) => {
    const said = sayAdvice(step, units, notMet);
    const amounts = said.amounts.length === 0 || said.trust === null ? said.amounts : [...said.amounts, said.trust];
    return {
      id: step.id,
      step: step.step,
      do: said.does,
      amount: amounts.length === 0 ? null : amounts.join("; "),
      amounts,
      calculation: step.amounts.map((a) => sayCalculation(a, units)),
      because: said.because,
      expect: said.expect,
      ifWrong: said.ifWrong,
      sources: step.sources.map(saySource),
      cautions: step.cautions.map(sayCaution),
    };
  });
}
