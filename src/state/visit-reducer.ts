import type { ImportChoices } from "../../analysis/import/import-log";
import type { Analysis } from "../../shared/findings/analysis";
import { type Checklist, EMPTY_CHECKLIST } from "../../shared/findings/checklist";
import type { NamedMeasures } from "../../shared/findings/comparison";
import type { Finding } from "../../shared/findings/finding";
import type { Span } from "../../shared/findings/span";
import type { ImportProblem } from "../../shared/problems/import-problem";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { isCompanyEntry } from "../views/site-facts/entries";
import type { PickedFile } from "../worker/messages";
import { changeBetween, type Entered, type EntryHistory, NO_HISTORY, withChange } from "./entry-history";
import {
  type PageState,
  type Predicted,
  type ReadingProgress,
  type ReadRecord,
  type Selection,
  type SheetName,
  type SiteEntry,
  type Visit,
  type VisitState,
  wholeVisit,
} from "./visit-state";

export type VisitAction =
  | { readonly do: "start-reading"; readonly files: readonly PickedFile[]; readonly choices: ImportChoices }
  | {
      readonly do: "open-visit";
      readonly files: readonly PickedFile[];
      readonly choices: ImportChoices;
      readonly site: SiteEntry;
      readonly checklist: Checklist;
      readonly before: NamedMeasures | null;
    }
  | { readonly do: "progress"; readonly progress: ReadingProgress }
  | { readonly do: "trace-read"; readonly read: ReadRecord }
  | { readonly do: "found"; readonly found: Finding }
  | { readonly do: "findings-worked-out"; readonly analysis: Analysis; readonly document: FindingsDocument }
  | { readonly do: "refuse"; readonly problem: ImportProblem }
  | { readonly do: "break"; readonly message: string }
  | { readonly do: "stop" }
  | { readonly do: "settle-questions" }
  | { readonly do: "close-visit" }
  | { readonly do: "enter-site"; readonly site: SiteEntry }
  | { readonly do: "undo" }
  | { readonly do: "change-units" }
  | { readonly do: "redo" }
  | { readonly do: "note-checklist"; readonly checklist: Checklist }
  | { readonly do: "select"; readonly selection: Selection }
  | { readonly do: "show-on-trace"; readonly span: Span }
  | { readonly do: "compare"; readonly before: NamedMeasures | null }
  | { readonly do: "open-sheet"; readonly sheet: SheetName }
  | { readonly do: "predict"; readonly predicted: Predicted | null }
  | { readonly do: "close-sheet" };

export type Dispatch = (action: VisitAction) => void;

const NOTHING_SELECTED: Selection = { finding: null, span: null };

export const EMPTY_PAGE: PageState = {
  visit: { stage: "empty" },
  site: { written: {}, facts: NO_SITE_FACTS },
  history: NO_HISTORY,
  takenBack: null,
  next: null,
  siteCarried: false,
  checklist: EMPTY_CHECKLIST,
  selection: NOTHING_SELECTED,
  focus: null,
  before: null,
  predicted: null,
  sheet: null,
};

/** The next state of the page. Pure; an action that does not fit the stage (a late answer of a stopped job) changes nothing. */
export function visitReducer(state: PageState, action: VisitAction): PageState {
  switch (action.do) {
    case "select":
      return { ...state, selection: action.selection };
    case "show-on-trace":
      return { ...state, focus: { span: action.span } };
    case "compare":
      return { ...state, before: action.before };
    case "open-sheet":
      return { ...state, sheet: action.sheet, predicted: null };
    case "close-sheet":
      return { ...state, sheet: null, predicted: null };
    case "predict":
      // A prediction that comes after its sheet was closed is not drawn.
      return state.sheet === "what-if" ? { ...state, predicted: action.predicted } : state;
    case "enter-site":
    case "note-checklist":
    case "undo":
    case "redo":
      return changeEntries(state, action);
    case "start-reading":
      return startReading(state, action);
    case "open-visit":
      return {
        ...startReading(state, { ...action, do: "start-reading" }),
        next: { site: action.site, checklist: action.checklist, before: action.before },
      };
    case "change-units":
      return { ...state, visit: markReworking(state.visit) };
    case "close-visit":
      return { ...EMPTY_PAGE, site: state.site };
    case "findings-worked-out": {
      const taken = takeOver(state);
      return afterVisit(taken, withFindings(taken.visit, action.analysis, action.document, taken.site.facts));
    }
    default:
      return afterVisit(state, visitStage(state.visit, action));
  }
}

type StageAction = Exclude<
  VisitAction,
  {
    do:
      | "findings-worked-out"
      | "select"
      | "show-on-trace"
      | "open-sheet"
      | "close-sheet"
      | "enter-site"
      | "undo"
      | "redo"
      | "note-checklist"
      | "open-visit"
      | "compare"
      | "predict"
      | "change-units"
      | "close-visit";
  }
>;

/** The same files read again are the same visit; other files begin another, which takes over once its findings stand and not before. */
function startReading(state: PageState, action: Extract<VisitAction, { do: "start-reading" }>): PageState {
  const isSame = wholeVisit(state.visit)?.files === action.files;
  const next = isSame ? null : { site: null, checklist: EMPTY_CHECKLIST, before: null };
  return { ...afterVisit(state, visitStage(state.visit, action)), next };
}

/**
 * Another visit stands on the page now: with its own facts where it was kept, else with those of the visit before, since a site is
 * logged more than once; the page says so until somebody looks at them.
 */
function takeOver(state: PageState): PageState {
  const { next, visit } = state;
  if (next === null || visit.stage !== "working-out") return state;
  const fresh = { ...state, next: null, history: NO_HISTORY, takenBack: null, checklist: next.checklist, before: next.before };
  if (next.site !== null) return { ...fresh, site: next.site, siteCarried: false };
  const siteCarried = visit.before !== null && Object.keys(state.site.written).some((key) => !isCompanyEntry(key));
  return { ...fresh, siteCarried };
}

/** A place on another record means nothing: selection and focus go where the record changed. */
function afterVisit(state: PageState, visit: VisitState): PageState {
  if (visit === state.visit) return state;
  return visit.stage === "working-out" && state.visit.stage !== "working-out"
    ? { ...state, visit, selection: NOTHING_SELECTED, focus: null, predicted: null }
    : { ...state, visit };
}

function visitStage(visit: VisitState, action: StageAction): VisitState {
  switch (action.do) {
    case "start-reading":
      return { stage: "reading", files: action.files, choices: action.choices, progress: null, before: wholeVisit(visit) };
    case "progress":
      return visit.stage === "reading" ? { ...visit, progress: action.progress } : visit;
    case "trace-read":
      return visit.stage === "reading" ? { stage: "working-out", read: action.read, found: [], before: visit.before } : visit;
    case "found":
      return visit.stage === "working-out" ? { ...visit, found: [...visit.found, action.found] } : visit;
    case "refuse":
      return visit.stage === "reading"
        ? { stage: "refused", files: visit.files, choices: visit.choices, problem: action.problem, before: visit.before }
        : visit;
    case "break":
      return broken(visit, action.message);
    case "stop":
      return stopped(visit);
    case "settle-questions":
      return visit.stage === "asking" ? { ...visit, stage: "done" } : visit;
  }
}

const backTo = (before: Visit | null): VisitState =>
  before === null ? { stage: "empty" } : { stage: "done", visit: before, reworking: false };

function stopped(visit: VisitState): VisitState {
  switch (visit.stage) {
    case "reading":
    case "working-out":
    case "refused":
    case "broken":
      return backTo(visit.before);
    case "asking":
    case "done":
      return { ...visit, reworking: false };
    case "empty":
      return visit;
  }
}

function broken(visit: VisitState, message: string): VisitState {
  switch (visit.stage) {
    case "reading":
      return { stage: "broken", files: visit.files, message, before: visit.before };
    case "working-out":
      return { stage: "broken", files: visit.read.files, message, before: visit.before };
    case "asking":
    case "done":
      return { stage: "broken", files: visit.visit.files, message, before: visit.visit };
    default:
      return visit;
  }
}

/** Facts that were entered meanwhile are not forgotten: the findings are then worked out once more. */
function withFindings(visit: VisitState, analysis: Analysis, document: FindingsDocument, facts: SiteFacts): VisitState {
  const reworking = JSON.stringify(analysis.site) !== JSON.stringify(facts);
  if (visit.stage === "working-out") {
    const stage = visit.read.outline.questions.length > 0 ? "asking" : "done";
    return { stage, visit: { ...visit.read, analysis, document }, reworking };
  }
  if (visit.stage === "asking" || visit.stage === "done") {
    return { ...visit, visit: { ...visit.visit, analysis, document }, reworking };
  }
  return visit;
}

const markReworking = (visit: VisitState): VisitState =>
  visit.stage === "asking" || visit.stage === "done" ? { ...visit, reworking: true } : visit;

type EntryAction = Extract<VisitAction, { do: "enter-site" | "note-checklist" | "undo" | "redo" }>;

/** Facts, ticks and notes change together in one history, so that undo takes back what was done last, wherever that was. */
function changeEntries(state: PageState, action: EntryAction): PageState {
  const now: Entered = { site: state.site, checklist: state.checklist };
  const { earlier, later } = state.history;
  switch (action.do) {
    case "enter-site":
      return entered(state, { ...now, site: action.site }, withChange(state.history, now, { ...now, site: action.site }));
    case "note-checklist": {
      const next = { ...now, checklist: action.checklist };
      return entered(state, next, withChange(state.history, now, next));
    }
    case "undo":
      return stepTo(state, "undo", earlier.at(-1), { earlier: earlier.slice(0, -1), later: [...later, now] });
    case "redo":
      return stepTo(state, "redo", later.at(-1), { earlier: [...earlier, now], later: later.slice(0, -1) });
  }
}

function stepTo(state: PageState, way: "undo" | "redo", to: Entered | undefined, history: EntryHistory): PageState {
  if (to === undefined) return state;
  const change = changeBetween(state, to);
  return { ...entered(state, to, history), takenBack: change === null ? null : { way, change } };
}

/** New facts ask for the findings to be worked out again; ticks and notes do not. */
function entered(state: PageState, to: Entered, history: EntryHistory): PageState {
  const next = { ...state, ...to, history, takenBack: null };
  return to.site === state.site ? next : { ...next, siteCarried: false, visit: markReworking(state.visit) };
}
