import { useId, useState } from "react";
import { compareVisits } from "../../../analysis/comparison/before-and-after";
import { sayImportProblem } from "../../../shared/wording/import-problem";
import type { StoryProps } from "../view-props";
import { ComparisonTable } from "./comparison-table";

type Stage = { readonly is: "waiting" | "reading" } | { readonly is: "refused"; readonly why: string };

/** The visit on the page against an earlier log of the same site: same measures side by side, with the uncertainty of each difference. */
export function BeforeAndAfter({ state, visit, commands, dispatch, preferences }: StoryProps) {
  const [stage, setStage] = useState<Stage>({ is: "waiting" });
  const picker = useId();
  const compare = async (files: readonly File[]) => {
    if (files.length === 0) return;
    setStage({ is: "reading" });
    const [after, before] = await Promise.all([
      commands.measures(),
      commands.measuresOf(files.map((file) => ({ name: file.name, blob: file }))),
    ]);
    if ("answer" in before) return setStage({ is: "refused", why: whyRefused(before) });
    if (after === null) return setStage({ is: "refused", why: whyRefused(null) });
    const names = (list: readonly { readonly name: string }[]) => list.map(({ name }) => name).join(", ");
    const compared = { comparison: compareVisits(before, after), beforeName: names(files), afterName: names(visit.files) };
    dispatch({ do: "compare", compared });
    setStage({ is: "waiting" });
  };
  return (
    <div className="before-and-after">
      <p>
        The visit on the page is taken as "after". Bring in the log of the earlier visit; it is read with the same site facts. Where both
        logged flow, hours of like demand are set against each other.
      </p>
      <p className="file-choice">
        <label htmlFor={picker}>Log of the earlier visit</label>
        <input
          id={picker}
          type="file"
          multiple
          disabled={stage.is === "reading"}
          onChange={(event) => void compare([...(event.target.files ?? [])])}
        />
      </p>
      <p role="status">{stage.is === "reading" ? "Reading the earlier log and comparing." : stage.is === "refused" ? stage.why : ""}</p>
      {state.compared !== null && <ComparisonTable compared={state.compared} units={preferences.units} />}
    </div>
  );
}

type Refused = Exclude<Awaited<ReturnType<StoryProps["commands"]["measuresOf"]>>, { readonly blockS: number }>;

function whyRefused(answer: Refused | null): string {
  if (answer?.answer === "refused") return sayImportProblem(answer.problem);
  if (answer?.answer === "broken")
    return `The earlier log met a defect of this program (${answer.message}). Nothing on the page has changed.`;
  return "Nothing was compared.";
}
