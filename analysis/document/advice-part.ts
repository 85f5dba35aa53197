import type { Advice } from "../../shared/findings/advice";
import type { Cause } from "../../shared/findings/cause";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { sayCause, sayToSeparate } from "../../shared/wording/cause";
import { sayReason } from "../../shared/wording/reason";

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

/** Advice as sentences, in the order of the work. */
export function writeAdvice(advice: readonly Advice[], _units: UnitChoice): FindingsDocument["advice"] {
  return advice.map((step) => ({
    id: step.id,
    do: step.id,
    amount: null,
    because: "",
    expect: null,
    sources: step.sources,
    cautions: step.cautions,
  }));
}
