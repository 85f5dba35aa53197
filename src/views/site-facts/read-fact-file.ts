import { SiteFileError } from "../../../shared/problems/site-file-problem";
import { saySiteFileProblem } from "../../../shared/wording/site-file-problem";

export type ReadFactFile<T> = { readonly read: T; readonly refusal: null } | { readonly read: null; readonly refusal: string };

/**
 * A file of facts or limits out of its text, or the sentence that says why it cannot be used; it is taken whole or not at all.
 * @param take makes it of the parsed file, or throws SiteFileError
 */
export function readFactFile<T>(text: string, name: string, take: (file: unknown, name: string) => T): ReadFactFile<T> {
  const refused = (problem: SiteFileError["problem"]) => ({ read: null, refusal: saySiteFileProblem(problem) });
  try {
    return { read: take(JSON.parse(text), name), refusal: null };
  } catch (error) {
    if (error instanceof SiteFileError) return refused(error.problem);
    return refused({ id: "not-json", file: name, why: error instanceof Error ? error.message : String(error) });
  }
}
