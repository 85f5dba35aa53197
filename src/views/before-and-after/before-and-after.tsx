import { useId, useState } from "react";
import { comparedVisits } from "../../../analysis/comparison/before-and-after";
import type { ComparedVisits } from "../../../shared/findings/comparison";
import type { ImportProblem } from "../../../shared/problems/import-problem";
import { COMPARISON_WORDS } from "../../../shared/wording/comparison";
import { sayImportProblem } from "../../../shared/wording/import-problem";
import { sayDay } from "../../../shared/wording/instant";
import { FileButton } from "../../parts/file-button";
import type { Visit } from "../../state/visit-state";
import type { StoredVisit } from "../../storage/database";
import type { PageProps } from "../view-props";
import { ComparisonTable } from "./comparison-table";
import { measuresFrom, type Source } from "./measure-source";
import { Overlays } from "./overlays";
import "./before-and-after.css";

type Stage = { readonly is: "waiting" | "comparing" } | { readonly is: "refused"; readonly why: string | ImportProblem };
type Props = PageProps & { readonly visit: Visit | null };

const sayRefused = (why: string | ImportProblem, locale: string | null) => (typeof why === "string" ? why : sayImportProblem(why, locale));

/** Two visits of a site: same measures side by side, with the uncertainty of each difference. Kept ones need no log. */
export function BeforeAndAfter({ state, visit, commands, dispatch, preferences, kept }: Props) {
  const page: Source | null = visit === null ? null : { from: "page", name: visit.files.map(({ name }) => name).join(", ") };
  const [before, setBefore] = useState<Source | null>(null);
  const [after, setAfter] = useState<Source | null>(page);
  const [stage, setStage] = useState<Stage>({ is: "waiting" });
  const [elsewhere, setElsewhere] = useState<ComparedVisits | null>(null);
  const choices = kept.visits.filter(({ id, deletedAt }) => deletedAt === null && (visit === null || id !== kept.openId));
  const shown = after?.from === "page" ? kept.compared : elsewhere;

  const compare = async (first: Source | null, second: Source | null) => {
    setBefore(first);
    setAfter(second);
    // Chosen away from: the visit on the page is compared with nothing, and so is its report.
    if (first === null && second?.from === "page") dispatch({ do: "compare", before: null });
    if (first === null || second === null) return;
    setStage({ is: "comparing" });
    const [a, b] = await Promise.all([measuresFrom(first, commands), measuresFrom(second, commands)]);
    if ("refused" in a) return setStage({ is: "refused", why: a.refused });
    if ("refused" in b) return setStage({ is: "refused", why: b.refused });
    // Only a comparison of the visit on the page is kept with it and goes into its report.
    if (second.from === "page") dispatch({ do: "compare", before: a });
    else setElsewhere(comparedVisits(a, b));
    setStage({ is: "waiting" });
  };
  return (
    <div className="before-and-after">
      <p>{COMPARISON_WORDS.intro}</p>
      <div className="compared-choices">
        <VisitChoice
          label={COMPARISON_WORDS.before}
          visits={choices}
          chosen={before}
          page={null}
          locale={preferences.units.locale}
          asKept={after?.from === "page" ? (state.before?.name ?? null) : null}
          onChoose={(source) => void compare(source, after)}
        />
        <LogChoice onChoose={(source) => void compare(source, after)} />
        <VisitChoice
          label={COMPARISON_WORDS.after}
          visits={choices}
          chosen={after}
          page={page}
          locale={preferences.units.locale}
          asKept={null}
          onChoose={(source) => void compare(before, source)}
        />
      </div>
      <p role="status">
        {stage.is === "comparing"
          ? COMPARISON_WORDS.comparing
          : stage.is === "refused"
            ? sayRefused(stage.why, preferences.units.locale)
            : ""}
      </p>
      {shown === null && stage.is === "waiting" && <p className="soft">{COMPARISON_WORDS.willStand}</p>}
      {shown !== null && (
        <>
          <ComparisonTable compared={shown} units={preferences.units} />
          <Overlays compared={shown} units={preferences.units} />
        </>
      )}
    </div>
  );
}

type ChoiceProps = {
  readonly label: string;
  readonly visits: readonly StoredVisit[];
  readonly chosen: Source | null;
  readonly page: Source | null;
  readonly locale: string | null;
  /** Name of the earlier visit that came with the one on the page; null where none did. */
  readonly asKept: string | null;
  readonly onChoose: (source: Source | null) => void;
};

const AS_KEPT = "as-kept";

function VisitChoice({ label, visits, chosen, page, locale, asKept, onChoose }: ChoiceProps) {
  const id = useId();
  const value = chosen?.from === "kept" ? chosen.id : (chosen?.from ?? (asKept === null ? "" : AS_KEPT));
  const choose = (picked: string) => onChoose(picked === "page" ? page : picked === "" ? null : { from: "kept", id: picked });
  return (
    <p>
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={({ target }) => choose(target.value)}>
        {page === null ? <option value="">{COMPARISON_WORDS.choose}</option> : <option value="page">{COMPARISON_WORDS.onPage}</option>}
        {value === AS_KEPT && <option value={AS_KEPT}>{asKept}</option>}
        {value === "log" && <option value="log">{COMPARISON_WORDS.broughtIn}</option>}
        {visits.map(({ id: visit, title, files, saved }) => (
          <option key={visit} value={visit}>
            {COMPARISON_WORDS.kept(title, files.join(", "), sayDay(saved, locale))}
          </option>
        ))}
      </select>
    </p>
  );
}

function LogChoice({ onChoose }: { readonly onChoose: (source: Source) => void }) {
  const take = (files: readonly File[]) => onChoose({ from: "log", files: files.map((file) => ({ name: file.name, blob: file })) });
  return (
    <p className="button-row">
      <FileButton label={COMPARISON_WORDS.bringEarlier} fieldLabel={COMPARISON_WORDS.earlierLog} multiple onFiles={take} />
    </p>
  );
}
