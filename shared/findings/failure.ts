/** Which part of the analysis failed; `id` is the kind of fault, the segment, the detector's kind, the observation, the rule or the check. */
export type FailedPart = "fault" | "segment" | "detector" | "observation" | "causes" | "check-between-causes" | "rule" | "acceptance";

/** A part that met a defect of this program on this record. The others went on without it, and it is said. */
export type Failure = { readonly part: FailedPart; readonly id: string; readonly message: string };

export type OnFailure = (failure: Failure, error: unknown) => void;

/** Where nobody listens, a failure stays what it was. */
export const raise: OnFailure = (_failure, error) => {
  throw error;
};

/** What `work` gives; where it throws, `otherwise`, and the failure is told. */
export function attempt<T>(part: FailedPart, id: string, onFailure: OnFailure, work: () => T, otherwise: T): T {
  try {
    return work();
  } catch (error) {
    onFailure({ part, id, message: error instanceof Error ? error.message : String(error) }, error);
    return otherwise;
  }
}
