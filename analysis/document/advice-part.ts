import type { Advice } from "../../shared/findings/advice";
import type { Cause } from "../../shared/findings/cause";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { UnitChoice } from "../../shared/units/unit-choice";

/** Causes as sentences, ranked; their confidences sum to 1. */
export function writeCauses(causes: readonly Cause[], _units: UnitChoice): FindingsDocument["causes"] {
  return causes.map((cause) => ({
    id: cause.id,
    confidence: cause.confidence,
    for: cause.for.map((r) => r.id),
    against: cause.against.map((r) => r.id),
    toSeparate: "",
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
