import { lazy, Suspense, useEffect } from "react";
import { usePreferences } from "./state/preferences";
import { useCorrections } from "./state/use-corrections";
import { useKeptVisits } from "./state/use-kept-visits";
import { useVisit } from "./state/use-visit";
import { type SheetName, shownRecord, shownVisit } from "./state/visit-state";
import { BringInAnywhere } from "./views/bring-in/bring-in-anywhere";
import { Reading } from "./views/bring-in/reading";
import { Refused } from "./views/bring-in/refused";
import { Start } from "./views/bring-in/start";
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
  const open = (sheet: SheetName) => () => dispatch({ do: "open-sheet", sheet });
  const isReading = state.visit.stage === "reading";
  useEffect(() => {
    // While the worker reads, the page fetches what will show it.
    if (isReading) void loadVisitPage();
  }, [isReading]);

  return (
    <div className="page">
      <header className="masthead">
        <h1>Evenhead</h1>
        <p className="masthead-what">{read === null ? "" : read.outline.files.map((file) => file.name).join(", ")}</p>
        <nav aria-label="Page">
          <div className="nav-group">
            {read === null ? null : (
              <button type="button" onClick={open("bring-in")}>
                How it was read
              </button>
            )}
            <button type="button" onClick={open("site-facts")}>
              Site facts
            </button>
            {shownVisit(state.visit) === null ? null : (
              <>
                <button type="button" onClick={open("what-if")}>
                  What if
                </button>
                <button type="button" onClick={open("acceptance")}>
                  Acceptance
                </button>
                <button type="button" onClick={open("before-and-after")}>
                  Before and after
                </button>
                <button type="button" onClick={open("report")}>
                  Report
                </button>
              </>
            )}
          </div>
          <div className="nav-group">
            <BringInAnywhere onFiles={(files) => commands.bringIn(files)} />
            <button type="button" onClick={open("round")}>
              Round
            </button>
            <button type="button" onClick={open("visits")}>
              Visits
            </button>
            <button type="button" onClick={open("how-shown")}>
              How it is shown
            </button>
          </div>
        </nav>
      </header>
      <main className={read === null ? "blank" : "visit"}>
        <div className="notices">
          <Reading {...page} />
          <Refused {...page} />
          <KeptNotice {...page} />
        </div>
        {read === null && state.visit.stage === "empty" && <Start {...page} />}
        <Suspense>{read !== null && <VisitPage {...page} read={read} />}</Suspense>
      </main>
      <Suspense>{state.sheet !== null && <Sheets {...page} sheet={state.sheet} change={change} />}</Suspense>
    </div>
  );
}
