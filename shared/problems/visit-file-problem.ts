/** Why a visit file cannot be used at all. Sentences in shared/wording/visit-file-problem.ts. */
export type VisitFileProblem =
  | { readonly id: "empty" }
  | { readonly id: "not-a-visit" }
  | { readonly id: "newer-version"; readonly version: number; readonly known: number }
  | { readonly id: "nothing-left" }
  | { readonly id: "archive-damaged" | "entry-damaged" | "too-large" }
  | { readonly id: "cannot-open"; readonly why: string }
  /** Sound, but not to be worked out again. */
  | { readonly id: "without-log" }
  | { readonly id: "log-damaged" };

/** Thrown where a visit file cannot be used at all. */
export class VisitFileError extends Error {
  override readonly name = "VisitFileError";
  constructor(
    readonly problem: VisitFileProblem,
    readonly file: string,
  ) {
    super(problem.id);
  }
}

/** One part of a visit file that could not be used; the others stand. */
export type LostPart = { readonly part: string; readonly why: "unreadable" | "changed" | "wrong-shape" | "missing" };
