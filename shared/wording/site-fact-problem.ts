import type { SiteFileProblem } from "../problems/site-file-problem";
import { isFactKey } from "../site/fact-key";
import { FACT_WORDS } from "./site-fact";

/** What is wrong with one entry, said beside its own field; the whole file's sentence is in site-file-problem.ts. */
export function sayEntryProblem(problem: SiteFileProblem): string {
  switch (problem.id) {
    case "wrong-value":
      return `"${problem.text}" does not read as this. Write a number with its unit, like ${problem.expected}. Until then it is left out.`;
    case "facts-disagree":
      return `This contradicts ${labelOf(problem.other)}: ${problem.why}. Until one is corrected, this entry is left out.`;
    case "unknown-fact":
    case "not-limits":
    case "cannot-open-site":
    case "not-json":
    case "not-an-object":
      return "This entry cannot be used and is left out.";
  }
}

const labelOf = (fact: string): string => (isFactKey(fact) ? `"${FACT_WORDS[fact].label}"` : `"${fact}"`);
