import { memo, useEffect, useRef } from "react";
import type { FindingKind } from "../../../shared/findings/finding";
import type { Span } from "../../../shared/findings/span";
import { LOOKS_WORDS } from "../../../shared/wording/closer-look";
import { sayOverLimit } from "../../../shared/wording/limit-state";
import { FINDINGS_WORDS } from "../../../shared/wording/story";
import type { TermId } from "../../../shared/wording/term";
import { CalculationView } from "../../parts/calculation-view";
import { Disclosure } from "../../parts/disclosure";
import { EvidenceLink } from "../../parts/evidence-link";
import { TermNote } from "../../parts/term-note";
import type { Dispatch } from "../../state/visit-reducer";
import { goToLooks } from "../closer-looks/go-to-looks";
import { goToFact } from "../site-facts/go-to-fact";
import { SIDE_BY_SIDE } from "../trace/trace-layout";
import { bestPlace } from "./best-place";
import type { StoryLine } from "./story-lines";

type Props = {
  readonly line: StoryLine;
  /** Whether there is a picture that explains it. */
  readonly hasLooks: boolean;
  /** Chosen here or on the trace. */
  readonly isLit: boolean;
  readonly dispatch: Dispatch;
};

const EXPLAINED: Partial<Record<FindingKind, TermId>> = {
  cycling: "starts-per-hour",
  "short-cycles": "short-cycle",
  oscillation: "oscillation",
  drift: "drift",
  tracking: "set-pressure",
  "tank-charge": "empties-at",
  "leak-down": "leak-down",
  demand: "minimum-night-flow",
};

/** One finding: its sentence with the number, the way to its places, and under it how it was worked out and what would make it wrong. */
export const FindingEntry = memo(({ line, hasLooks, isLit, dispatch }: Props) => {
  const { finding } = line;
  const entry = useInSightWhenLit(isLit);
  const term = EXPLAINED[finding.kind];
  const show = (places: readonly Span[]) => {
    dispatch({ do: "select", selection: { finding: finding.kind, span: null } });
    dispatch({ do: "show-on-trace", span: bestPlace(places) });
  };
  return (
    <li ref={entry} className="finding" data-lit={isLit} data-over={line.overLimit === true} aria-current={isLit}>
      <h3>{line.title}</h3>
      {line.overLimit !== false ? null : <p className="finding-limit">{sayOverLimit(line.overLimit)}</p>}
      {line.lead === "" ? null : <p>{line.lead}</p>}
      <p className="button-row small">
        <EvidenceLink places={finding.places} of={line.title} onShow={show} />
        {!hasLooks ? null : (
          <button type="button" aria-label={`${LOOKS_WORDS.goTo}: ${line.title}`} onClick={() => goToLooks(dispatch, finding.kind)}>
            {LOOKS_WORDS.goTo}
          </button>
        )}
        {term === undefined ? null : <TermNote id={term}>{FINDINGS_WORDS.means}</TermNote>}
      </p>
      <Disclosure summary={FINDINGS_WORDS.worked}>
        {line.more === "" ? null : <p>{line.more}</p>}
        <p>{line.method}</p>
        {line.basis.length === 0 ? null : (
          <p className="soft">
            {FINDINGS_WORDS.restsOn} <bdi>{line.basis.join(", ")}</bdi>.
          </p>
        )}
        <CalculationView calculation={line.calculation} />
        <p className="finding-wrong-if">
          <strong>{FINDINGS_WORDS.wrongIf}</strong> {line.wrongIf}
        </p>
        {line.openEnds.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </Disclosure>
      <Sharpen line={line} dispatch={dispatch} />
    </li>
  );
});

function Sharpen({ line, dispatch }: Pick<Props, "line" | "dispatch">) {
  const { sharpen } = line;
  if (sharpen === null) return null;
  return (
    <p className="finding-sharpen small">
      <span className="soft">{FINDINGS_WORDS.sharperWith(sharpen.by)}</span>{" "}
      <button type="button" className="button-quiet" onClick={() => goToFact(dispatch, sharpen.fact)}>
        {FINDINGS_WORDS.enterIt}
      </button>
    </p>
  );
}

/** Beside the story or pinned above it; else a touch on a band would carry the trace away from under the finger. */
const isTraceInSight = (): boolean =>
  matchMedia(SIDE_BY_SIDE).matches || Number.parseFloat(document.documentElement.style.getPropertyValue("--pinned")) > 0;

/** A finding lit from the trace comes into sight; one that is in sight stays where it is. */
function useInSightWhenLit(isLit: boolean) {
  const entry = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (isLit && isTraceInSight()) entry.current?.scrollIntoView({ block: "nearest" });
  }, [isLit]);
  return entry;
}
