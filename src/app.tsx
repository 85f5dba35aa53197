import { Sheet } from "./parts/sheet";
import { usePreferences } from "./state/preferences";
import { useVisit } from "./state/use-visit";
import { type SheetName, shownRecord, shownVisit } from "./state/visit-state";
import { OpenQuestions } from "./views/bring-in/open-questions";
import { Reading } from "./views/bring-in/reading";
import { Refused } from "./views/bring-in/refused";
import { Review } from "./views/bring-in/review";
import { Start } from "./views/bring-in/start";
import { Causes } from "./views/causes/causes";
import { CloserLooks } from "./views/closer-looks/closer-looks";
import { Findings } from "./views/findings/findings";
import { HowShown } from "./views/how-shown";
import { NextVisit } from "./views/next-visit/next-visit";
import { SiteFactsSheet } from "./views/site-facts/site-facts-sheet";
import { Trace } from "./views/trace/trace";
import type { PageProps } from "./views/view-props";
import type { AnalysisClient } from "./worker/analysis-client";

const SHEET_TITLES: Readonly<Record<SheetName, string>> = {
  "bring-in": "How the files were read",
  "site-facts": "Site facts",
  "what-if": "What if",
  "before-and-after": "Before and after",
  round: "Round",
  "how-shown": "How it is shown",
  keys: "Keys",
};

/** The page: one sheet of paper per visit. The record on one side, its story on the other. */
export function App({ client }: { readonly client: AnalysisClient }) {
  const [preferences, change] = usePreferences();
  const { state, dispatch, commands } = useVisit(client, preferences.units);
  const page: PageProps = { state, preferences, dispatch, commands };
  const read = shownRecord(state.visit);
  const visit = shownVisit(state.visit);
  const open = (sheet: SheetName) => () => dispatch({ do: "open-sheet", sheet });

  return (
    <div className="page">
      <header className="masthead">
        <h1>Evenhead</h1>
        <p className="masthead-what">{read === null ? "" : read.outline.files.map((file) => file.name).join(", ")}</p>
        <nav aria-label="Page">
          {read === null ? null : (
            <button type="button" onClick={open("bring-in")}>
              How it was read
            </button>
          )}
          <button type="button" onClick={open("site-facts")}>
            Site facts
          </button>
          <button type="button" onClick={open("how-shown")}>
            How it is shown
          </button>
        </nav>
      </header>
      <main className={read === null ? "blank" : "visit"}>
        <div className="notices">
          <Reading {...page} />
          <Refused {...page} />
        </div>
        {read === null && state.visit.stage === "empty" && <Start {...page} />}
        {read !== null && <Trace {...page} read={read} />}
        {visit !== null && read !== null && (
          <>
            <article className="story">
              <OpenQuestions {...page} visit={visit} />
              <Findings {...page} visit={visit} />
              <Causes {...page} visit={visit} />
              <NextVisit {...page} visit={visit} />
            </article>
            <CloserLooks {...page} visit={visit} />
          </>
        )}
      </main>
      {state.sheet !== null && (
        <Sheet title={SHEET_TITLES[state.sheet]} onClose={() => dispatch({ do: "close-sheet" })}>
          {state.sheet === "site-facts" && <SiteFactsSheet {...page} />}
          {state.sheet === "bring-in" && read !== null && <Review {...page} read={read} />}
          {state.sheet === "how-shown" && <HowShown preferences={preferences} change={change} />}
        </Sheet>
      )}
    </div>
  );
}
