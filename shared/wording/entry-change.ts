import { isFactKey } from "../site/fact-key";
import { FACT_WORDS } from "./site-fact";
import { isStepId, stepTitle } from "./step";

/** What was written, in a word for undo: facts of the site (`key` null for several at once), a tick, or a note (`step` null: of the visit). */
export type EntryChange =
  | { readonly kind: "facts"; readonly key: string | null }
  | { readonly kind: "tick"; readonly step: string }
  | { readonly kind: "note"; readonly step: string | null };

export function sayEntryChange(change: EntryChange): string {
  switch (change.kind) {
    case "facts":
      return change.key !== null && isFactKey(change.key) ? FACT_WORDS[change.key].label.toLowerCase() : "site facts";
    case "tick":
      return `tick at \u201c${stepName(change.step)}\u201d`;
    case "note":
      return change.step === null ? "notes of this visit" : `note at \u201c${stepName(change.step)}\u201d`;
  }
}

/** A visit kept by another version may hold a step that this one does not know. */
const stepName = (step: string): string => (isStepId(step) ? stepTitle(step) : step);

export const UNDO_WORDS = {
  undo: "Undo",
  redo: "Redo",
  /** After the word on the button, which change it takes back. */
  which: (change: EntryChange) => `: ${sayEntryChange(change)}`,
  undone: (change: EntryChange) => `Taken back: ${sayEntryChange(change)}.`,
  redone: (change: EntryChange) => `Put in again: ${sayEntryChange(change)}.`,
} as const;
