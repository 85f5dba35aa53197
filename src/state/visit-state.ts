import type { SketchedColumn } from "../../analysis/import/body/reading-sketch";
import type { ImportChoices } from "../../analysis/import/import-log";
import type { Analysis } from "../../shared/findings/analysis";
import type { Checklist } from "../../shared/findings/checklist";
import type { NamedMeasures } from "../../shared/findings/comparison";
import type { Finding, FindingKind } from "../../shared/findings/finding";
import type { Span } from "../../shared/findings/span";
import type { ImportProblem } from "../../shared/problems/import-problem";
import type { FileLayout } from "../../shared/record/file-layout";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { EntryChange } from "../../shared/wording/entry-change";
import type { SheetName } from "../../shared/wording/page";
import type { PickedFile, RecordOutline, TraceChannel } from "../worker/messages";
import type { EntryHistory } from "./entry-history";

/** Rows and bytes read so far, and the time left at the present pace; null until the pace is known. */
export type ReadingProgress = {
  readonly rows: number;
  readonly bytes: number;
  readonly totalBytes: number;
  readonly secondsLeft: number | null;
  readonly sketch: readonly SketchedColumn[];
};

/** What was read, before anything is worked out of it. */
export type ReadRecord = {
  readonly files: readonly PickedFile[];
  readonly choices: ImportChoices;
  /** When a person asked for it to be read like this, Unix ms; null where a kept visit was opened. */
  readonly askedAt: number | null;
  readonly outline: RecordOutline;
  readonly layouts: readonly FileLayout[];
  readonly traces: readonly TraceChannel[];
};

/** A visit that can be read from top to bottom. */
export type Visit = ReadRecord & { readonly analysis: Analysis; readonly document: FindingsDocument };

/**
 * A visit by stage. "asking" is a whole visit whose files left something open: the likeliest answers are assumed and shown, the
 * questions stand on top. `before` is the visit that comes back when reading is stopped or refused.
 */
export type VisitState =
  | { readonly stage: "empty" }
  | {
      readonly stage: "reading";
      readonly files: readonly PickedFile[];
      readonly choices: ImportChoices;
      readonly progress: ReadingProgress | null;
      readonly before: Visit | null;
    }
  | {
      readonly stage: "working-out";
      readonly read: ReadRecord;
      /** What was found so far, in the order of the asking. */
      readonly found: readonly Finding[];
      readonly before: Visit | null;
    }
  | { readonly stage: "asking" | "done"; readonly visit: Visit; readonly reworking: boolean }
  | {
      readonly stage: "refused";
      readonly files: readonly PickedFile[];
      readonly choices: ImportChoices;
      readonly problem: ImportProblem;
      readonly before: Visit | null;
    }
  | { readonly stage: "broken"; readonly files: readonly PickedFile[]; readonly message: string; readonly before: Visit | null };

/** Facts as the person wrote them, by the names of the site file ("limits.band" for a limit), and as they were read. */
export type SiteEntry = { readonly written: Readonly<Record<string, string>>; readonly facts: SiteFacts };

/** What is lit up on both sides of the page: a finding, one of its places, or a band that belongs to no finding. */
export type Selection = { readonly finding: FindingKind | null; readonly span: Span | null };

/** A place the trace should move to. A new object each time, so that asking twice moves twice. */
export type Focus = { readonly span: Span };

export type { SheetName };

/** Pressure that the model predicts with a change, drawn over the recorded one: shape [n], s from the record's first instant, and Pa gauge. */
export type Predicted = { readonly times: Float64Array; readonly pressure: Float32Array };

export type PageState = {
  readonly visit: VisitState;
  readonly site: SiteEntry;
  /** What undo goes back to, for facts, ticks and notes alike; and what it came from. */
  readonly history: EntryHistory;
  /** The change that was taken back or put in again last, to be said; null once something else was entered. */
  readonly takenBack: { readonly way: "undo" | "redo"; readonly change: EntryChange } | null;
  /** What takes over once the findings of the files being read stand: the facts (null: those of now) and the rest of another visit. */
  readonly next: { readonly site: SiteEntry | null; readonly checklist: Checklist; readonly before: NamedMeasures | null } | null;
  /** The facts were entered for the visit before and nobody has looked at them since. */
  readonly siteCarried: boolean;
  readonly checklist: Checklist;
  readonly selection: Selection;
  readonly focus: Focus | null;
  /** The earlier visit that the one on the page is compared with, where the person chose one. */
  readonly before: NamedMeasures | null;
  readonly predicted: Predicted | null;
  /** The sheet that is open, at most one. */
  readonly sheet: SheetName | null;
};

/** The last whole visit: the one on the page, or the one that comes back when the job that runs is stopped. */
export function wholeVisit(state: VisitState): Visit | null {
  if (state.stage === "empty") return null;
  return "visit" in state ? state.visit : state.before;
}

/** The visit whose story stands on the page. While a new record's trace already stands there, none does. */
export const shownVisit = (state: VisitState): Visit | null => (state.stage === "working-out" ? null : wholeVisit(state));

/** The record whose trace stands on the page: already before its findings are there. */
export function shownRecord(state: VisitState): ReadRecord | null {
  return state.stage === "working-out" ? state.read : wholeVisit(state);
}
