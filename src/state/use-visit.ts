import { useEffect, useMemo, useReducer, useRef } from "react";
import { type ImportChoices, NO_CHOICES } from "../../analysis/import/import-choices";
import type { Checklist } from "../../shared/findings/checklist";
import type { NamedMeasures, VisitMeasures } from "../../shared/findings/comparison";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { UnitChoice } from "../../shared/units/unit-choice";
import type { Look, LookRequest } from "../charts/looks/look";
import type { ReportOrder } from "../report/report-input";
import { isCompanyEntry, underCompanyLimits } from "../views/site-facts/entries";
import type { AnalysisClient } from "../worker/analysis-client";
import type { Answer, Detail, PickedFile } from "../worker/messages";
import type { ModelRun, ModelRunOrder } from "../worker/model-run";
import { secondsLeft } from "../worker/time-left";
import { keptCompanyLimits } from "./company-limits";
import { type Dispatch, EMPTY_PAGE, visitReducer } from "./visit-reducer";
import { type PageState, type ReadRecord, type SiteEntry, wholeVisit } from "./visit-state";

/** What is needed to put a visit back on the page. */
export type KeptVisit = {
  readonly files: readonly PickedFile[];
  readonly choices: ImportChoices;
  readonly site: SiteEntry;
  readonly checklist: Checklist;
  readonly before: NamedMeasures | null;
};

/** What a person can have done that takes work. */
export type Commands = {
  /** Reads files as one record, instead of what stands on the page. */
  bringIn(files: readonly PickedFile[], choices?: ImportChoices): void;
  /** Puts a kept visit on the page: its files are read as they were then, with its facts and its checklist. */
  openVisit(kept: KeptVisit): void;
  /** Reads the same files again with other choices. */
  readAgain(choices: ImportChoices): void;
  /** Takes facts over and works the findings out again. */
  enterSite(site: SiteEntry): void;
  /** Takes back what was entered last: a fact, a tick or a note. */
  undo(): void;
  redo(): void;
  /** The samples of every channel over a short window; null where the record is gone. */
  detail(from: number, to: number): Promise<Detail | null>;
  /** Works a closer look out of the record. */
  look(request: LookRequest): Promise<Look | null>;
  /** What a comparison needs of the record on the page, and of another visit's files, read as that was kept, else with the facts on the page. */
  measures(): Promise<VisitMeasures | null>;
  measuresOf(files: readonly PickedFile[], kept?: Pick<KeptVisit, "choices" | "site">): ReturnType<AnalysisClient["measuresOf"]>;
  report(order: ReportOrder): Promise<string | null>;
  runModel(order: ModelRunOrder, overtaken?: AbortSignal): Promise<ModelRun | null>;
  /** Runs the fitted model for each step of the advice. @returns false where it was overtaken or could not be */
  workOutEffects(): Promise<boolean>;
  /** Ends the job that runs; the page goes back to what it showed before. */
  stop(): void;
};

/** The page's state with the commands that change it, tied to the analysis worker. */
export function useVisit(
  client: AnalysisClient,
  units: UnitChoice,
): { readonly state: PageState; readonly dispatch: Dispatch; readonly commands: Commands } {
  const [state, dispatch] = useReducer(visitReducer, EMPTY_PAGE, withKeptLimits);
  const latest = useRef(state);
  latest.current = state;
  const latestUnits = useRef(units);
  latestUnits.current = units;
  const stopJob = useRef<() => void>(() => {});

  const commands = useMemo<Commands>(() => {
    function read(files: readonly PickedFile[], choices: ImportChoices, askedAt: number | null, facts: SiteFacts): void {
      const withZone = choices.zone === null ? { ...choices, zone: facts.zone } : choices;
      stopJob.current = client.read(
        { files, choices: withZone, site: facts, units: latestUnits.current },
        tellReducer({ files, choices, askedAt }, dispatch),
      );
    }
    function bringIn(files: readonly PickedFile[], choices: ImportChoices = NO_CHOICES): void {
      stopJob.current();
      dispatch({ do: "start-reading", files, choices });
      read(files, choices, Date.now(), latest.current.site.facts);
    }
    return {
      bringIn,
      openVisit({ files, choices, site, checklist, before }) {
        stopJob.current();
        dispatch({ do: "open-visit", files, choices, site, checklist, before });
        read(files, choices, null, site.facts);
      },
      readAgain(choices) {
        const visit = wholeVisit(latest.current.visit);
        if (visit !== null) bringIn(visit.files, choices);
      },
      enterSite(site) {
        // Whoever enters facts anew does so under the company's limits of today; a kept visit brings its own along.
        const hasLimits = Object.keys(site.written).some(isCompanyEntry);
        dispatch({ do: "enter-site", site: hasLimits ? site : underCompanyLimits(site, keptCompanyLimits()) });
      },
      undo: () => dispatch({ do: "undo" }),
      redo: () => dispatch({ do: "redo" }),
      detail: (from, to) => client.detail(from, to),
      look: (request) => client.look(request),
      measures: () => client.measures(),
      measuresOf(files, kept) {
        const site = (kept?.site ?? latest.current.site).facts;
        const choices = kept?.choices ?? NO_CHOICES;
        return client.measuresOf({ files, choices: { ...choices, zone: choices.zone ?? site.zone }, site, units: latestUnits.current });
      },
      report: (order) => client.report(order),
      runModel: (order, overtaken) => client.runModel(order, overtaken),
      async workOutEffects() {
        const asked = wholeVisit(latest.current.visit)?.outline;
        const told = await client.effects(latestUnits.current);
        const { visit } = latest.current;
        // Another log may have been brought in meanwhile.
        if (told === null || visit.stage === "working-out" || wholeVisit(visit)?.outline !== asked) return false;
        dispatch({ do: "findings-worked-out", analysis: told.analysis, document: told.document });
        return true;
      },
      stop() {
        stopJob.current();
        dispatch({ do: "stop" });
      },
    };
  }, [client]);

  useReworking(client, state, units, dispatch);
  return { state, dispatch, commands };
}

/** The page begins under the limits of the company. */
const withKeptLimits = (page: PageState): PageState => ({ ...page, site: underCompanyLimits(page.site, keptCompanyLimits()) });

/** Turns the answers of one reading into actions; answers after its end are not heard. */
function tellReducer(job: Pick<ReadRecord, "files" | "choices" | "askedAt">, dispatch: Dispatch): (answer: Answer) => void {
  const started = { at: performance.now() / 1000, bytes: 0 };
  return (answer) => {
    switch (answer.answer) {
      case "progress": {
        const { progress } = answer;
        const left = secondsLeft(started, { at: performance.now() / 1000, bytes: progress.bytes }, progress.totalBytes);
        return dispatch({ do: "progress", progress: { ...progress, secondsLeft: left, sketch: answer.sketch } });
      }
      case "trace":
        return dispatch({
          do: "trace-read",
          read: { ...job, outline: answer.outline, layouts: answer.layouts, traces: answer.traces },
        });
      case "found":
        return dispatch({ do: "found", found: answer.found });
      case "findings":
        return dispatch({ do: "findings-worked-out", analysis: answer.analysis, document: answer.document });
      case "refused":
        return dispatch({ do: "refuse", problem: answer.problem });
      case "broken":
        return dispatch({ do: "break", message: answer.message });
    }
  };
}

/** Facts changed while a visit stands: its findings are worked out again, only the latest facts count. */
function useReworking(client: AnalysisClient, state: PageState, units: UnitChoice, dispatch: Dispatch): void {
  const { facts } = state.site;
  const inUnits = useRef(units);
  useEffect(() => {
    if (inUnits.current !== units) dispatch({ do: "change-units" });
    inUnits.current = units;
  }, [units, dispatch]);
  const reworking = (state.visit.stage === "done" || state.visit.stage === "asking") && state.visit.reworking;
  useEffect(() => {
    if (!reworking) return;
    return client.rework(facts, units, (answer) => {
      if (answer.answer === "findings") dispatch({ do: "findings-worked-out", analysis: answer.analysis, document: answer.document });
      if (answer.answer === "broken") dispatch({ do: "break", message: answer.message });
    });
  }, [client, facts, units, reworking, dispatch]);
}
