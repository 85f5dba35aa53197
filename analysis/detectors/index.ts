import type { FindingKind, Outcome } from "../../shared/findings/finding";
import type { Detector, Evidence } from "./detector";

type AnyDetector = { [K in FindingKind]: Detector<K> }[FindingKind];

/** Every question asked of a record, in the order of the report. */
export const DETECTORS: readonly AnyDetector[] = [];

/** Runs every detector; one that breaks says so and leaves the others alone. */
export function detectAll(evidence: Evidence): Outcome[] {
  return DETECTORS.map((detector): Outcome => {
    try {
      return detector.detect(evidence);
    } catch (error) {
      return { kind: detector.kind, state: "broken", message: error instanceof Error ? error.message : String(error) };
    }
  });
}
