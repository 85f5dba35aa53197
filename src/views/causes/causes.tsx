import { type ReactNode, useMemo, useRef } from "react";
import type { Analysis } from "../../../shared/findings/analysis";
import { CAUSES_WORDS } from "../../../shared/wording/story";
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
  const { advice } = visit.analysis;
  const { told, rest } = useMemo(() => {
    const steps = advice.map(({ id }) => id);
    return causeLines(causes, preferences.units, steps);
  }, [causes, advice, preferences.units]);
  return (
    <section className="chapter" aria-labelledby="causes">
      <h2 id="causes">{CAUSES_WORDS.title}</h2>
      {causes.length === 0 ? (
        <p>{CAUSES_WORDS.nothing}</p>
      ) : (
        <p className="soft">
          {CAUSES_WORDS.weighed[0]} <TermNote id="confidence">{CAUSES_WORDS.confidences}</TermNote> {CAUSES_WORDS.weighed[1]}
        </p>
      )}
      <ol className="cause-list" aria-live="polite">
        {told.map((line, i) => (
          <CauseEntry key={line.id} line={line} open={i === 0} earlier={earlierShare(line.id, causes, before)} {...props} />
        ))}
      </ol>
      {rest.length === 0 ? null : (
        <Disclosure summary={CAUSES_WORDS.alsoWeighed(rest.length)}>
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
  const check =
    line.toSeparate === null ? null : (
      <div className="cause-check">
        <p>
          <strong>{CAUSES_WORDS.settles}</strong> {line.toSeparate}
        </p>
        {line.fact === null ? null : <EnterFact name={line.fact} at={`cause-${line.id}`} {...page} />}
      </div>
    );
  return (
    <li className="cause">
      <h3>
        {line.name} <span className="cause-share">{line.share}</span>
      </h3>
      {earlier === null ? null : <p className="cause-earlier">{CAUSES_WORDS.earlier(earlier)}</p>}
      <meter className="cause-line" min={0} max={1} value={line.confidence} aria-label={CAUSES_WORDS.confidenceIn(line.name)} />
      {line.beside === null ? null : <p>{CAUSES_WORDS.beside(line.beside)}</p>}
      {open && <p>{line.meaning}</p>}
      {open && <ForAndAgainst {...line.strongest} />}
      <AllReasons line={line} open={open} check={check} />
      {open && check}
    </li>
  );
}

type ReasonsProps = Pick<EntryProps, "line" | "open"> & { readonly check: ReactNode };

/** Every reason; of a cause that is not the likeliest also what it means, and the check that would tell. */
function AllReasons({ line, open, check }: ReasonsProps) {
  const summary = open ? CAUSES_WORDS.allReasons : CAUSES_WORDS.meaningAndReasons;
  return (
    <Disclosure summary={summary(line.for.length, line.against.length)}>
      {!open && <p>{line.meaning}</p>}
      <ForAndAgainst {...line} />
      {!open && check}
    </Disclosure>
  );
}

function ForAndAgainst(reasons: Pick<CauseLine, "for" | "against">) {
  return (
    <>
      <Reasons title={CAUSES_WORDS.speaksFor} reasons={reasons.for} />
      <Reasons title={CAUSES_WORDS.speaksAgainst} reasons={reasons.against} />
    </>
  );
}

function Reasons({ title, reasons }: { readonly title: string; readonly reasons: readonly string[] }) {
  if (reasons.length === 0) return null;
  return (
    <>
      <p className="reasons-title">{title}</p>
      <ul>
        {reasons.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
    </>
  );
}

/** The causes as they stood before the latest analysis of the same record; null while there was only one. */
function useCausesBefore(analysis: Analysis, record: object): Analysis["causes"] | null {
  const seen = useRef({ record, analysis, before: null as Analysis["causes"] | null });
  if (seen.current.record !== record) seen.current = { record, analysis, before: null };
  else if (seen.current.analysis !== analysis) seen.current = { record, analysis, before: seen.current.analysis.causes };
  return seen.current.before;
}
