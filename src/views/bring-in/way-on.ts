import type { ImportChoices } from "../../../analysis/import/import-choices";
import type { ImportProblem } from "../../../shared/problems/import-problem";
import { answer, chooseColumn } from "./choices";

/** What a person can say so that a refused file can be read after all. */
export type WayOn = {
  /** Columns that may hold the time after all; none where there is nothing to choose. */
  readonly headings: readonly string[];
};

/** Files without a time can be read once somebody says which column it is, or when the first row was taken and how often. */
export function wayOn(problem: ImportProblem): WayOn | null {
  switch (problem.id) {
    case "no-time-column":
      return { headings: problem.headings };
    case "one-column":
      return { headings: [] };
    default:
      return null;
  }
}

export const withTimeColumn = (choices: ImportChoices, heading: string): ImportChoices => chooseColumn(choices, heading, "time", null);

/** @param start blank where nobody knows: then time is counted from the first row */
export const withInterval = (choices: ImportChoices, interval: string, start: string): ImportChoices =>
  answer(answer(choices, "interval", interval), "start-time", start);
