import { notMet } from "../../../analysis/document/acceptance-part";
import { collectCannotTell, inOrderOfWeight } from "../../../analysis/document/story-part";
import { breaksLimit } from "../../../shared/findings/breaks-limit";
import { sayCannotTell } from "../../../shared/wording/cannot-tell";
import { IN_SHORT, sayCausesInShort, sayLimitsInShort, sayStepsInShort } from "../../../shared/wording/in-short";
import { sayRecordTime } from "../../../shared/wording/instant";
import { stepTitle } from "../../../shared/wording/step";
import { causeLines } from "../causes/cause-lines";
import type { StoryProps } from "../view-props";
import "./in-short.css";

/** The story in three lines, for whoever has half a minute. */
export function InShort(props: StoryProps) {
  const { visit, state, preferences } = props;
  const { outline } = visit;
  return (
    <section className="in-short" aria-labelledby="in-short">
      <h2 id="in-short">{state.site.facts.name ?? IN_SHORT.title}</h2>
      <p className="soft small">{sayRecordTime(outline.clock, outline.duration, preferences.units)}</p>
      <InShortLines {...props} areLinks />
    </section>
  );
}

/** What breaks a limit, the likeliest cause, the first step; as links each leads to its chapter. */
export function InShortLines({ visit, preferences, areLinks = false }: StoryProps & { readonly areLinks?: boolean }) {
  const { analysis } = visit;
  const found = inOrderOfWeight(analysis.outcomes, analysis.site);
  const over = found.filter((finding) => breaksLimit(finding, analysis.site) === true).map(({ kind }) => kind);
  const open = new Set(collectCannotTell(analysis.outcomes, analysis.segments).map((one) => sayCannotTell(one, preferences.units))).size;
  const rows = [
    { to: "findings", name: IN_SHORT.shows, says: sayLimitsInShort(over, found.length, open, notMet(visit.document.acceptance)) },
    { to: "causes", name: IN_SHORT.why, says: sayCausesInShort(causeLines(analysis.causes, preferences.units).told) },
    { to: "next-visit", name: IN_SHORT.next, says: sayStepsInShort(analysis.advice.map(({ id }) => stepTitle(id))) },
  ];
  return (
    <dl className="in-short-lines">
      {rows.map(({ to, name, says }) => (
        <div key={to}>
          <dt data-name={name}>{areLinks ? <a href={`#${to}`}>{name}</a> : name}</dt>
          <dd>{says}</dd>
        </div>
      ))}
    </dl>
  );
}
