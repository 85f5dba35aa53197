import { sayVisitFileProblem } from "../../../shared/wording/visit-file-problem";
import type { KeptVisits } from "../../state/use-kept-visits";
import type { TakenIn } from "../../state/use-opening";
import type { FromArchive } from "../../storage/archive";

/** How many visits were taken in, and what must be said of these and the others, a sentence each. */
export type Taken = { readonly read: number; readonly said: readonly string[] };

/** Keeps visits out of files as they come; one alone is put on the page as well. @param onProgress called with how many were read */
export async function takeVisits(
  visits: AsyncIterable<FromArchive>,
  kept: Pick<KeptVisits, "take">,
  onProgress: (read: number) => void,
): Promise<Taken> {
  const said: string[] = [];
  let [read, waiting]: [number, FromArchive | null] = [0, null];
  const keep = async (one: FromArchive, isAlone: boolean) => {
    const taken: TakenIn =
      "problem" in one
        ? { isKept: false, said: sayVisitFileProblem(one.problem, one.name) }
        : await kept.take(one.name, one.text, one.files, isAlone);
    if (taken.isKept) onProgress(++read);
    if (taken.said !== null) said.push(taken.said);
  };
  let count = 0;
  for await (const one of visits) {
    if (waiting !== null) await keep(waiting, false);
    waiting = one;
    count++;
  }
  if (waiting !== null) await keep(waiting, count === 1);
  return { read, said };
}
