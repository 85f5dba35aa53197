import { ImportError } from "../../shared/problems/import-problem";
import { SiteFileError } from "../../shared/problems/site-file-problem";
import { VisitFileError } from "../../shared/problems/visit-file-problem";
import { sayImportProblem } from "../../shared/wording/import-problem";
import { saySiteFileProblem } from "../../shared/wording/site-file-problem";
import { sayVisitFileProblem } from "../../shared/wording/visit-file-problem";

export type Refusal = { readonly kind: string; readonly message: string; readonly file: string | null; readonly row: number | null };

/** What a known problem with an input says, or null where the error is a defect of ours. */
export function refusalOf(error: unknown): Refusal | null {
  if (error instanceof ImportError)
    return { kind: error.problem.id, message: sayImportProblem(error.problem, null), ...placeOf(error.problem) };
  if (error instanceof SiteFileError)
    return { kind: error.problem.id, message: saySiteFileProblem(error.problem), ...placeOf(error.problem) };
  if (error instanceof VisitFileError)
    return { kind: error.problem.id, message: sayVisitFileProblem(error.problem, error.file), file: error.file, row: null };
  return null;
}

const placeOf = (problem: object) => ({
  file: "file" in problem && typeof problem.file === "string" ? problem.file : null,
  row: "row" in problem && typeof problem.row === "number" ? problem.row : null,
});
