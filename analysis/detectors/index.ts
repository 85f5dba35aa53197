import type { OnFailure } from "../../shared/findings/failure";
import type { FindingKind, Outcome } from "../../shared/findings/finding";
import { cycling } from "./cycling";
import { demand } from "./demand";
import type { Detector, Evidence } from "./detector";
import { drift } from "./drift";
import { leakDown } from "./leak-down";
import { oscillation } from "./oscillation";
import { overMarkedPressure } from "./over-marked-pressure";
import { pumpPerformance } from "./pump-performance";
import { sensor } from "./sensor";
import { shortCycles } from "./short-cycles";
import { tankCharge } from "./tank-charge";
import { tracking } from "./tracking";

type AnyDetector = { [K in FindingKind]: Detector<K> }[FindingKind];

/** Every question asked of a record, in the order of the report. */
export const DETECTORS: readonly AnyDetector[] = [
  overMarkedPressure,
  cycling,
  shortCycles,
  oscillation,
  drift,
  tracking,
  tankCharge,
  leakDown,
  sensor,
  pumpPerformance,
  demand,
];

/** Runs every detector; one that breaks says so and leaves the others alone. */
export const detectAll = (evidence: Evidence, onFailure: OnFailure = () => {}): Outcome[] => [...detectEach(evidence, onFailure)];

/** The same one by one, as they are asked for. */
export function* detectEach(evidence: Evidence, onFailure: OnFailure): Generator<Outcome, void> {
  for (const detector of DETECTORS) yield detectWith(detector, evidence, onFailure);
}

function detectWith(detector: AnyDetector, evidence: Evidence, onFailure: OnFailure): Outcome {
  try {
    return detector.detect(evidence);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    onFailure({ part: "detector", id: detector.kind, message }, error);
    return { kind: detector.kind, state: "broken", message };
  }
}
