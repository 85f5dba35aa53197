import { useEffect, useState } from "react";
import type { Analysis } from "../../../shared/findings/analysis";
import type { FindingKind } from "../../../shared/findings/finding";
import { type CloserLook, lookTitle } from "../../../shared/wording/closer-look";
import type { Look } from "../../charts/looks/look";
import { looksOf } from "../../charts/looks/looks-of";
import type { StoryProps } from "../view-props";
import { LookView } from "./look-view";
import "./closer-looks.css";

/** Pictures that explain the finding that is lit up; without one, those of the first finding that has any. */
export function CloserLooks({ visit, state, preferences, commands }: StoryProps) {
  const { selection } = state;
  const found = visit.analysis.outcomes.flatMap((outcome) => (outcome.state === "found" ? [outcome.kind] : []));
  const looks = selection.finding === null ? firstLooks(found) : looksOf(selection.finding);
  const [chosen, setChosen] = useState<CloserLook | null>(null);
  const wanted = chosen !== null && looks.includes(chosen) ? chosen : (looks[0] ?? null);
  const [look, setLook] = useState<{ readonly is: Look; readonly of: Analysis } | null>(null);
  const { analysis } = visit;

  useEffect(() => {
    if (wanted === null) return;
    let late = false;
    commands.look({ look: wanted, place: selection.span }).then((answer) => {
      if (!late && answer !== null) setLook({ is: answer, of: analysis });
    });
    return () => {
      late = true;
    };
  }, [wanted, selection.span, commands, analysis]);

  if (wanted === null) return null;
  return (
    <section className="closer-looks" aria-labelledby="closer-looks">
      <h2 id="closer-looks">Closer looks</h2>
      <ul className="look-choices">
        {looks.map((name) => (
          <li key={name}>
            <button type="button" aria-pressed={name === wanted} onClick={() => setChosen(name)}>
              {lookTitle(name)}
            </button>
          </li>
        ))}
      </ul>
      {look !== null && look.is.look === wanted && look.of === analysis && (
        <LookView look={look.is} visit={visit} preferences={preferences} />
      )}
    </section>
  );
}

const firstLooks = (found: readonly FindingKind[]): readonly CloserLook[] => found.map(looksOf).find((looks) => looks.length > 0) ?? [];
