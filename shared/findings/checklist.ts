import { ADVICE_IDS, type AdviceId } from "./advice";

/** A step of the next visit as it went on site. */
export type ChecklistEntry = { readonly step: string; readonly done: boolean; readonly note: string };

/** What was ticked and noted on site; readings go to the site facts, where they are worked with. */
export type Checklist = { readonly entries: readonly ChecklistEntry[]; readonly notes: string };

export const EMPTY_CHECKLIST: Checklist = { entries: [], notes: "" };

/** Steps that were ticked as done, in the order of the work; a step that this version does not know is none. */
export const doneSteps = ({ entries }: Checklist): readonly AdviceId[] =>
  ADVICE_IDS.filter((id) => entries.some(({ step, done }) => done && step === id));

/** The entry of a step; not done and without a note where nobody touched it. */
export const entryOf = (checklist: Checklist, step: string): ChecklistEntry =>
  checklist.entries.find((entry) => entry.step === step) ?? { step, done: false, note: "" };

/** The checklist with one entry changed; an entry that says nothing is dropped. */
export function withEntry(checklist: Checklist, entry: ChecklistEntry): Checklist {
  const others = checklist.entries.filter((other) => other.step !== entry.step);
  return { ...checklist, entries: entry.done || entry.note !== "" ? [...others, entry] : others };
}
