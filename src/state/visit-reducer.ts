import type { ImportChoices } from "../../analysis/import/import-log";
import type { Analysis } from "../../shared/findings/analysis";
import { type Checklist, EMPTY_CHECKLIST } from "../../shared/findings/checklist";
import type { ComparedVisits } from "../../shared/findings/comparison";
import type { Span } from "../../shared/findings/span";
import type { ImportProblem } from "../../shared/problems/import-problem";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { isCompanyEntry } from "../views/site-facts/entries";
import type { PickedFile } from "../worker/messages";
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
    }
  | { readonly do: "progress"; readonly progress: ReadingProgress }
  | { readonly do: "trace-read"; readonly read: ReadRecord }
  | { readonly do: "findings-worked-out"; readonly analysis: Analysis; readonly document: FindingsDocument }
  | { readonly do: "refuse"; readonly problem: ImportProblem }
  | { readonly do: "break"; readonly message: string }
  | { readonly do: "stop" }
  | { readonly do: "settle-questions" }
  | { readonly do: "close-visit" }
  | { readonly do: "enter-site"; readonly site: SiteEntry }
  | { readonly do: "undo-site" }
  | { readonly do: "change-units" }
  | { readonly do: "redo-site" }
  | { readonly do: "note-checklist"; readonly checklist: Checklist }
  | { readonly do: "select"; readonly selection: Selection }
  | { readonly do: "show-on-trace"; readonly span: Span }
  | { readonly do: "compare"; readonly compared: ComparedVisits }
  | { readonly do: "open-sheet"; readonly sheet: SheetName }
  | { readonly do: "predict"; readonly predicted: Predicted | null }
  | { readonly do: "close-sheet" };

export type Dispatch = (action: VisitAction) => void;

const NOTHING_SELECTED: Selection = { finding: null, span: null };
const MOST_UNDO_STEPS = 50;

export const EMPTY_PAGE: PageState = {
  visit: { stage: "empty" },
  site: { written: {}, facts: NO_SITE_FACTS },
  earlierSites: [],
  laterSites: [],
  next: null,
  siteCarried: false,
  checklist: EMPTY_CHECKLIST,
  selection: NOTHING_SELECTED,
  focus: null,
  compared: null,
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
      return { ...state, compared: action.compared };
    case "open-sheet":
      return { ...state, sheet: action.sheet, predicted: null };
    case "close-sheet":
      return { ...state, sheet: null, predicted: null };
    case "predict":
      // A prediction that comes after its sheet was closed is not drawn.
      return state.sheet === "what-if" ? { ...state, predicted: action.predicted } : state;
    case "enter-site":
    case "undo-site":
    case "redo-site":
      return { ...changeSite(state, action), siteCarried: false, visit: markReworking(state.visit) };
    case "note-checklist":
      return { ...state, checklist: action.checklist };
    case "start-reading":
      return startReading(state, action);
    case "open-visit":
      return { ...startReading(state, { ...action, do: "start-reading" }), next: { site: action.site, checklist: action.checklist } };
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
      | "undo-site"
      | "redo-site"
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
  const next = isSame ? null : { site: null, checklist: EMPTY_CHECKLIST };
  return { ...afterVisit(state, visitStage(state.visit, action)), next };
}

/**
 * Another visit stands on the page now: with its own facts where it was kept, else with those of the visit before, since a site is
 * logged more than once; the page says so until somebody looks at them.
 */
function takeOver(state: PageState): PageState {
  const { next, visit } = state;
  if (next === null || visit.stage !== "working-out") return state;
  if (next.site !== null) {
    return { ...state, next: null, site: next.site, earlierSites: [], laterSites: [], siteCarried: false, checklist: next.checklist };
  }
  const siteCarried = visit.before !== null && Object.keys(state.site.written).some((key) => !isCompanyEntry(key));
  return { ...state, next: null, siteCarried, checklist: next.checklist };
}

/** A place on another record means nothing: selection and focus go where the record changed. */
function afterVisit(state: PageState, visit: VisitState): PageState {
  if (visit === state.visit) return state;
  return visit.stage === "working-out"
    ? { ...state, visit, selection: NOTHING_SELECTED, focus: null, compared: null, predicted: null }
    : { ...state, visit };
}

function visitStage(visit: VisitState, action: StageAction): VisitState {
  switch (action.do) {
    case "start-reading":
      return { stage: "reading", files: action.files, choices: action.choices, progress: null, before: wholeVisit(visit) };
    case "progress":
      return visit.stage === "reading" ? { ...visit, progress: action.progress } : visit;
    case "trace-read":
      return visit.stage === "reading" ? { stage: "working-out", read: action.read, before: visit.before } : visit;
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

type SiteAction = Extract<VisitAction, { do: "enter-site" | "undo-site" | "redo-site" }>;

function changeSite(state: PageState, action: SiteAction): PageState {
  const { site, earlierSites, laterSites } = state;
  switch (action.do) {
    case "enter-site":
      return { ...state, site: action.site, earlierSites: [...earlierSites, site].slice(-MOST_UNDO_STEPS), laterSites: [] };
    case "undo-site": {
      const earlier = earlierSites.at(-1);
      if (earlier === undefined) return state;
      return { ...state, site: earlier, earlierSites: earlierSites.slice(0, -1), laterSites: [...laterSites, site] };
    }
    case "redo-site": {
      const later = laterSites.at(-1);
      if (later === undefined) return state;
      return { ...state, site: later, earlierSites: [...earlierSites, site], laterSites: laterSites.slice(0, -1) };
    }
  }
}
