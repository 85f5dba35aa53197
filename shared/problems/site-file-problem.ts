/** Why a site file or a site fact cannot be used. Sentences in shared/wording/site-file-problem.ts. */
export type SiteFileProblem =
  | { readonly id: "cannot-open-site"; readonly file: string; readonly why: string }
  | { readonly id: "not-json"; readonly file: string; readonly why: string }
  | { readonly id: "not-an-object"; readonly file: string }
  | { readonly id: "not-limits"; readonly file: string }
  | { readonly id: "unknown-fact"; readonly file: string; readonly fact: string; readonly known: readonly string[] }
  | { readonly id: "wrong-value"; readonly file: string; readonly fact: string; readonly text: string; readonly expected: string }
  | { readonly id: "facts-disagree"; readonly file: string; readonly fact: string; readonly other: string; readonly why: string };

export class SiteFileError extends Error {
  override readonly name = "SiteFileError";
  constructor(readonly problem: SiteFileProblem) {
    super(problem.id);
  }
}
