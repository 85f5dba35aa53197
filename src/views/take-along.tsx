import { FILE_NAMES } from "../../shared/wording/file-name";
import { PAGE_WORDS } from "../../shared/wording/page";
import { saveAsFile } from "../parts/save-as-file";
import { eventsCsv } from "../report/events-csv";
import type { StoryProps } from "./view-props";

/** The visit in forms that other programs read, at the end of the story. */
export function TakeAlong({ visit, state, dispatch }: StoryProps) {
  const name = state.site.facts.name ?? visit.outline.files[0]?.name ?? "";
  const { document } = visit;
  return (
    <section className="chapter" aria-labelledby="take-along">
      <h2 id="take-along">{PAGE_WORDS.takeAlong}</h2>
      <p className="button-row">
        <button type="button" onClick={() => dispatch({ do: "open-sheet", sheet: "report" })}>
          {PAGE_WORDS.writeReport}
        </button>
        <button
          type="button"
          onClick={() => saveAsFile(FILE_NAMES.findings(name), "application/json", `${JSON.stringify(document, null, 2)}\n`)}
        >
          {PAGE_WORDS.saveFindings}
        </button>
        <button type="button" onClick={() => saveAsFile(FILE_NAMES.allEvents(name), "text/csv", eventsCsv(document))}>
          {PAGE_WORDS.saveEvents}
        </button>
      </p>
    </section>
  );
}
