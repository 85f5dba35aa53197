import { type Checklist, entryOf } from "../../shared/findings/checklist";
import type { EntryChange } from "../../shared/wording/entry-change";
import type { SiteEntry } from "./visit-state";

/** Everything a person wrote on a visit: what can be lost by one wrong touch, and so what undo brings back. */
export type Entered = { readonly site: SiteEntry; readonly checklist: Checklist };

/** What stood before, latest last, and what was taken back, latest last. */
export type EntryHistory = { readonly earlier: readonly Entered[]; readonly later: readonly Entered[] };

export const NO_HISTORY: EntryHistory = { earlier: [], later: [] };
const MOST_STEPS = 50;

/** One more change: what was taken back before it can no longer be done again. A note typed in several breaths is one change. */
export function withChange(history: EntryHistory, from: Entered, to: Entered): EntryHistory {
  const change = changeBetween(from, to);
  if (change === null) return history;
  const before = history.earlier.at(-1);
  const earlierChange = before === undefined || history.later.length > 0 ? null : changeBetween(before, from);
  const isSameNote = change.kind === "note" && earlierChange?.kind === "note" && earlierChange.step === change.step;
  return { earlier: isSameNote ? history.earlier : [...history.earlier, from].slice(-MOST_STEPS), later: [] };
}

/** What a change was; null where nothing differs. */
export function changeBetween(from: Entered, to: Entered): EntryChange | null {
  return changeOfFacts(from.site.written, to.site.written) ?? changeOfChecklist(from.checklist, to.checklist);
}

function changeOfFacts(from: SiteEntry["written"], to: SiteEntry["written"]): EntryChange | null {
  const changed = [...new Set([...Object.keys(from), ...Object.keys(to)])].filter((key) => from[key] !== to[key]);
  return changed.length === 0 ? null : { kind: "facts", key: changed.length === 1 ? changed[0] : null };
}

function changeOfChecklist(from: Checklist, to: Checklist): EntryChange | null {
  if (from.notes !== to.notes) return { kind: "note", step: null };
  for (const { step } of [...to.entries, ...from.entries]) {
    const [a, b] = [entryOf(from, step), entryOf(to, step)];
    if (a.done !== b.done) return { kind: "tick", step };
    if (a.note !== b.note) return { kind: "note", step };
  }
  return null;
}
