import { useEffect, useState } from "react";
import type { Analysis } from "../../../shared/findings/analysis";
import type { FindingKind } from "../../../shared/findings/finding";
import { type CloserLook, LOOKS_WORDS, lookTitle } from "../../../shared/wording/closer-look";
import type { Look } from "../../charts/looks/look";
import { looksOf } from "../../charts/looks/looks-of";
import type { Visit } from "../../state/visit-state";
import type { StoryProps } from "../view-props";
import { LookView } from "./look-view";
import "./closer-looks.css";

/** Pictures that explain what was found: those of the finding that is lit up first, then all others. */
export function CloserLooks({ visit, state, preferences, commands }: StoryProps) {
  const { selection } = state;
  const { analysis } = visit;
  const looks = looksInOrder(visit, selection.finding);
  const [chosen, setChosen] = useState<{ readonly look: CloserLook; readonly under: FindingKind | null } | null>(null);
  const wanted = chosen !== null && chosen.under === selection.finding && looks.includes(chosen.look) ? chosen.look : (looks[0] ?? null);
  const [look, setLook] = useState<{ readonly is: Look; readonly of: Analysis } | null>(null);

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
  const isDrawn = look !== null && look.is.look === wanted && look.of === analysis;
  const own = selection.finding === null ? [] : looksOf(selection.finding, visit.traces);
  return (
    <section className="closer-looks" aria-labelledby="closer-looks">
      <h2 id="closer-looks">{LOOKS_WORDS.title}</h2>
      <ul className="look-choices small">
        {looks.map((name) => (
          <li key={name} data-own={own.includes(name)}>
            <button type="button" aria-pressed={name === wanted} onClick={() => setChosen({ look: name, under: selection.finding })}>
              {lookTitle(name)}
            </button>
          </li>
        ))}
      </ul>
      <div className="look-place" aria-busy={!isDrawn}>
        {isDrawn ? <LookView look={look.is} visit={visit} preferences={preferences} /> : <p className="soft">{LOOKS_WORDS.beingDrawn}</p>}
      </div>
    </section>
  );
}

/** Every picture that explains something found, once; those of the lit finding first. */
function looksInOrder({ analysis, traces }: Visit, lit: FindingKind | null): readonly CloserLook[] {
  const found = analysis.outcomes.flatMap((outcome) => (outcome.state === "found" ? [outcome.kind] : []));
  return [...new Set([...(lit === null ? [] : [lit]), ...found].flatMap((kind) => looksOf(kind, traces)))];
}
