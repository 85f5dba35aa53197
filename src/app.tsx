import { lazy, Suspense, useCallback, useEffect } from "react";
import { BESIDE_TRACE, PAGE_WORDS } from "../shared/wording/page";
import { usePreferences } from "./state/preferences";
import { useCorrections } from "./state/use-corrections";
import { useFilesComing } from "./state/use-files-coming";
import { useKeptVisits } from "./state/use-kept-visits";
import { useVisit } from "./state/use-visit";
import { shownRecord } from "./state/visit-state";
import { Reading } from "./views/bring-in/reading";
import { Refused } from "./views/bring-in/refused";
import { Start } from "./views/bring-in/start";
import { Masthead } from "./views/masthead";
import { useUndoKeys } from "./views/use-undo-keys";
import type { PageProps } from "./views/view-props";
import { KeptNotice } from "./views/visits/kept-notice";
import type { AnalysisClient } from "./worker/analysis-client";

const loadVisitPage = () => import("./views/visit-page");
const VisitPage = lazy(loadVisitPage);
const Sheets = lazy(() => import("./views/sheets"));

/** The page: one sheet of paper per visit. The record on one side, its story on the other. */
export function App({ client }: { readonly client: AnalysisClient }) {
  const [preferences, change] = usePreferences();
  const { state, dispatch, commands } = useVisit(client, preferences.units);
  const kept = useKeptVisits(state, commands);
  const corrections = useCorrections(state, commands);
  const page: PageProps = { state, preferences, dispatch, commands, kept, corrections };
  const read = shownRecord(state.visit);
  const title = state.site.facts.name ?? read?.outline.files[0]?.name ?? null;
  useEffect(() => {
    // Several visits may stand open side by side: each tab says which it is.
    document.title = read === null || title === null ? PAGE_WORDS.name : `${title} \u2013 ${PAGE_WORDS.name}`;
  }, [read, title]);
  useUndoKeys(commands);
  const isWorkedOut = state.visit.stage === "done" || state.visit.stage === "asking";
  const getReady = useCallback(() => {
    client.getReady();
    void loadVisitPage();
  }, [client]);
  useFilesComing(getReady);
  const isReading = state.visit.stage === "reading";
  useEffect(() => {
    // While the worker reads, the page fetches what will show it.
    if (isReading) void loadVisitPage();
  }, [isReading]);

  return (
    <div className="page">
      {read !== null && (
        <a className="skip" href="#in-short">
          {PAGE_WORDS.skip}
        </a>
      )}
      <Masthead {...page} />
      <main className={read === null ? "blank" : "visit"}>
        <div className="notices">
          <Reading {...page} />
          <Refused {...page} />
          <KeptNotice {...page} />
          <p className="heard" role="status">
            {isWorkedOut ? PAGE_WORDS.ready(title ?? "") : ""}
          </p>
        </div>
        {read === null && state.visit.stage === "empty" && <Start {...page} />}
        <Suspense>{read !== null && <VisitPage {...page} read={read} />}</Suspense>
      </main>
      <Suspense>
        {state.sheet !== null && !(read !== null && BESIDE_TRACE.includes(state.sheet)) && (
          <Sheets {...page} sheet={state.sheet} change={change} />
        )}
      </Suspense>
    </div>
  );
}
