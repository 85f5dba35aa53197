import { type ReactNode, useMemo, useState } from "react";
import { collectCannotTell } from "../../../analysis/document/story-part";
import { FINDINGS_WORDS } from "../../../shared/wording/story";
import { looksOf } from "../../charts/looks/looks-of";
import { Disclosure } from "../../parts/disclosure";
import type { Selection } from "../../state/visit-state";
import type { StoryProps } from "../view-props";
import { FindingEntry } from "./finding-entry";
import { byWeight, cannotShow, clearQuestions, type StoryLine, storyLines } from "./story-lines";
import "./findings.css";

/** What the log shows, heaviest first, and as plainly what it does not show and cannot show. */
export function Findings({ visit, state, preferences, dispatch }: StoryProps) {
  const { analysis, outline } = visit;
  const { units } = preferences;
  const lines = useMemo(() => storyLines(analysis, outline.clock, units), [analysis, outline.clock, units]);
  const { over, open, aside } = byWeight(lines);
  const entry = (line: StoryLine) => (
    <FindingEntry
      key={line.finding.kind}
      line={line}
      hasLooks={looksOf(line.finding.kind, visit.traces).length > 0}
      isLit={state.selection.finding === line.finding.kind}
      dispatch={dispatch}
    />
  );
  const clear = clearQuestions(analysis.outcomes);
  const cannot = useMemo(() => cannotShow(collectCannotTell(analysis.outcomes, analysis.segments), lines, units), [analysis, lines, units]);
  return (
    <section className="chapter" aria-labelledby="findings">
      <h2 id="findings">{FINDINGS_WORDS.title}</h2>
      {lines.length === 0 ? <p>{FINDINGS_WORDS.nothing}</p> : null}
      {over.length === 0 ? null : (
        <>
          <p className="finding-limit">{FINDINGS_WORDS.over}</p>
          <ol className="finding-list">{over.map(entry)}</ol>
        </>
      )}
      {open.length === 0 ? null : <ol className="finding-list">{open.map(entry)}</ol>}
      <Aside lines={aside} selection={state.selection} entry={entry} />
      <Sentences title={FINDINGS_WORDS.clear} sentences={clear} open={false} />
      <Sentences title={FINDINGS_WORDS.cannot} sentences={cannot} open={lines.length < 4} />
      {visit.document.failures.map(({ text }) => (
        <p key={text} className="finding-broken">
          <bdi>{text}</bdi>
        </p>
      ))}
    </section>
  );
}

type AsideProps = {
  readonly lines: readonly StoryLine[];
  readonly selection: Selection;
  readonly entry: (line: StoryLine) => ReactNode;
};

/** Folded away until it is asked for, or one of it is chosen on the trace. */
function Aside({ lines, selection, entry }: AsideProps) {
  const isChosen = lines.some(({ finding }) => finding.kind === selection.finding);
  const [open, setOpen] = useState(isChosen);
  const [seen, setSeen] = useState(selection);
  if (seen !== selection) {
    setSeen(selection);
    if (isChosen) setOpen(true);
  }
  if (lines.length === 0) return null;
  return (
    <Disclosure summary={FINDINGS_WORDS.alsoMeasured(lines.length)} open={open} onToggle={setOpen}>
      <ol className="finding-list">{lines.map(entry)}</ol>
    </Disclosure>
  );
}

type SentencesProps = { readonly title: string; readonly sentences: readonly string[]; readonly open: boolean };

function Sentences({ title, sentences, open }: SentencesProps) {
  if (sentences.length === 0) return null;
  return (
    <Disclosure summary={`${title} (${sentences.length})`} open={open}>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </Disclosure>
  );
}
