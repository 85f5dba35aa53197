import { sayImportProblem } from "../../../shared/wording/import-problem";
import type { PageProps } from "../view-props";
import { sayFileNames } from "./file-names";
import { FilePicker } from "./file-picker";
import { TimeAfterAll } from "./time-after-all";
import { wayOn } from "./way-on";
import "./bring-in.css";

/** A file that could not be read, or a job that failed: what is wrong, what to do next. Nothing is half-done. */
export function Refused({ state, dispatch, commands }: PageProps) {
  const { visit } = state;
  if (visit.stage !== "refused" && visit.stage !== "broken") return null;
  const way = visit.stage === "refused" ? wayOn(visit.problem) : null;
  return (
    <section className="refused" aria-labelledby="refused">
      <div role="alert">
        <h2 id="refused">{visit.stage === "refused" ? "This cannot be read as a log" : "Evenhead itself failed here"}</h2>
        <p>
          <bdi>
            {visit.stage === "refused" ? sayImportProblem(visit.problem) : `It stopped with "${visit.message}". The files are unharmed.`}
          </bdi>
        </p>
      </div>
      <p className="soft">
        Asked for: <bdi>{sayFileNames(visit.files)}</bdi>.{" "}
        {visit.before === null ? "Nothing was taken over." : "The visit on this page is as it was."}
      </p>
      {way === null || visit.stage !== "refused" ? null : (
        <TimeAfterAll way={way} choices={visit.choices} onChoices={(choices) => commands.bringIn(visit.files, choices)} />
      )}
      <FilePicker onFiles={(files) => commands.bringIn(files)} compact />
      <button type="button" onClick={() => dispatch({ do: "stop" })}>
        {visit.before === null ? "Go back" : "Go back to the visit"}
      </button>
    </section>
  );
}
