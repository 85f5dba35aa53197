import { useCallback, useEffect, useState } from "react";
import { START_WORDS } from "../../../shared/wording/bring-in";
import type { Commands } from "../../state/use-visit";

/** What the address ends with when the page is to open on the sample visit. */
const SAMPLE = "#sample";

type SampleVisit = {
  readonly open: () => void /** Why it did not come, in a sentence; null while all is well. */;
  readonly problem: string | null;
};

/** Opens the sample visit on demand. */
export function useSampleVisit(commands: Commands): SampleVisit {
  const [problem, setProblem] = useState<string | null>(null);
  const open = useCallback(() => {
    setProblem(null);
    import("./sample-visit")
      .then(({ fetchSampleVisit }) => fetchSampleVisit())
      .then(commands.openVisit)
      .catch(() => setProblem(START_WORDS.sampleMissing));
  }, [commands]);
  return { open, problem };
}

/** Opens it at once where the address asks for it. */
export function useSampleFromAddress(open: () => void): void {
  useEffect(() => {
    if (location.hash !== SAMPLE) return;
    history.replaceState(null, "", location.pathname);
    open();
  }, [open]);
}
