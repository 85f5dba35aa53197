import type { ImportProblem } from "../../../shared/problems/import-problem";
import { REFUSED_WORDS } from "../../../shared/wording/bring-in";
import { sayImportProblem } from "../../../shared/wording/import-problem";
import type { PickedFile } from "../../worker/messages";
import type { PageProps } from "../view-props";
import { sayFileNames } from "./file-names";
import { FilePicker } from "./file-picker";
import { TimeAfterAll } from "./time-after-all";
import { wayOn } from "./way-on";
import "./bring-in.css";

/** A file that could not be read, or a job that failed: what is wrong, what to do next. Nothing is half-done. */
export function Refused({ state, dispatch, commands, preferences }: PageProps) {
  const { visit } = state;
  if (visit.stage !== "refused" && visit.stage !== "broken") return null;
  const way = visit.stage === "refused" ? wayOn(visit.problem) : null;
  const rest = visit.stage === "refused" ? othersThan(visit.problem, visit.files) : null;
  return (
    <section className="refused" aria-labelledby="refused">
      <div role="alert">
        <h2 id="refused">{visit.stage === "refused" ? REFUSED_WORDS.refused : REFUSED_WORDS.broken}</h2>
        <p>
          <bdi>
            {visit.stage === "refused"
              ? sayImportProblem(visit.problem, preferences.units.locale)
              : REFUSED_WORDS.stoppedWith(visit.message)}
          </bdi>
        </p>
      </div>
      <p className="soft">
        {REFUSED_WORDS.askedFor} <bdi>{sayFileNames(visit.files)}</bdi>.{" "}
        {visit.before === null ? REFUSED_WORDS.nothingTaken : REFUSED_WORDS.asItWas}
      </p>
      {rest !== null && (
        <p className="button-row">
          <button type="button" className="button-main" onClick={() => commands.bringIn(rest.files)}>
            {REFUSED_WORDS.without(rest.without)}
          </button>
        </p>
      )}
      {way === null || visit.stage !== "refused" ? null : (
        <TimeAfterAll way={way} choices={visit.choices} onChoices={(choices) => commands.bringIn(visit.files, choices)} />
      )}
      <FilePicker onFiles={(files) => commands.bringIn(files)} compact />
      <p className="button-row">
        <button type="button" onClick={() => dispatch({ do: "stop" })}>
          {visit.before === null ? REFUSED_WORDS.back : REFUSED_WORDS.backToVisit}
        </button>
      </p>
    </section>
  );
}

/** One of several files is no log: the others can still make a record. Null where there are no others, or the problem is of no one file. */
function othersThan(
  problem: ImportProblem,
  files: readonly PickedFile[],
): { readonly without: string; readonly files: readonly PickedFile[] } | null {
  if (!("file" in problem)) return null;
  const others = files.filter(({ name }) => name !== problem.file);
  return others.length > 0 && others.length < files.length ? { without: problem.file, files: others } : null;
}
