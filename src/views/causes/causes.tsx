import { useRef } from "react";
import type { Analysis } from "../../../shared/findings/analysis";
import { Disclosure } from "../../parts/disclosure";
import { TermNote } from "../../parts/term-note";
import { EnterFact } from "../site-facts/enter-fact";
import type { StoryProps } from "../view-props";
import { type CauseLine, causeLines, earlierShare } from "./cause-lines";
import "./causes.css";

/** Why the system behaves as it does: causes weighed against each other, with what speaks for and against each. */
export function Causes(props: StoryProps) {
  const { visit, preferences } = props;
  const { causes } = visit.analysis;
  const before = useCausesBefore(visit.analysis, visit.outline);
  const { told, rest } = causeLines(causes, preferences.units);
  return (
    <section className="chapter" aria-labelledby="causes">
      <h2 id="causes">Why</h2>
      {causes.length === 0 ? (
        <p>
          Causes are weighed once the log shows something to weigh. With a pressure log of a day and the site facts there is most to go by.
        </p>
      ) : (
        <p className="soft">
          Weighed against each other, so that all <TermNote id="confidence">confidences</TermNote> add up to 100{"\u202f"}%. A reading you
          enter weighs them again at once.
        </p>
      )}
      <ol className="cause-list" aria-live="polite">
        {told.map((line, i) => (
          <CauseEntry key={line.id} line={line} open={i === 0} earlier={earlierShare(line.id, causes, before)} {...props} />
        ))}
      </ol>
      {rest.length === 0 ? null : (
        <Disclosure summary={`Also weighed (${rest.length})`}>
          <ul>
            {rest.map((line) => (
              <li key={line.id}>
                {line.name}, {line.share}
                {line.against.length === 0 ? "" : `: ${line.against[0]}`}
              </li>
            ))}
          </ul>
        </Disclosure>
      )}
    </section>
  );
}

type EntryProps = StoryProps & { readonly line: CauseLine; readonly open: boolean; readonly earlier: string | null };

function CauseEntry({ line, open, earlier, ...page }: EntryProps) {
  return (
    <li className="cause">
      <h3>
        {line.name} <span className="cause-share">{line.share}</span>
      </h3>
      {earlier === null ? null : <p className="cause-earlier">Before the last entry: {earlier}.</p>}
      <meter className="cause-line" min={0} max={1} value={line.confidence} aria-label={`Confidence in ${line.name}`} />
      {line.beside === null ? null : <p>It may well hold beside the first: {line.beside}.</p>}
      <p>{line.meaning}</p>
      <Reasons title="What speaks for it" reasons={line.for} open={open} />
      <Reasons title="What speaks against it" reasons={line.against} open={open} />
      {line.toSeparate === null ? null : (
        <div className="cause-check">
          <p>
            <strong>What would settle it.</strong> {line.toSeparate}
          </p>
          {line.fact === null ? null : <EnterFact name={line.fact} at={`cause-${line.id}`} {...page} />}
        </div>
      )}
    </li>
  );
}

function Reasons({ title, reasons, open }: { readonly title: string; readonly reasons: readonly string[]; readonly open: boolean }) {
  if (reasons.length === 0) return null;
  return (
    <Disclosure summary={`${title} (${reasons.length})`} open={open}>
      <ul>
        {reasons.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
    </Disclosure>
  );
}

/** The causes as they stood before the latest analysis of the same record; null while there was only one. */
function useCausesBefore(analysis: Analysis, record: object): Analysis["causes"] | null {
  const seen = useRef({ record, analysis, before: null as Analysis["causes"] | null });
  if (seen.current.record !== record) seen.current = { record, analysis, before: null };
  else if (seen.current.analysis !== analysis) seen.current = { record, analysis, before: seen.current.analysis.causes };
  return seen.current.before;
}
