import { type FindingKind, findingOf } from "../../shared/findings/finding";
import { LESSONS, type Lesson, SAMPLE_GUIDE, SAMPLE_LOG } from "../../shared/wording/sample-guide";
import { Disclosure } from "../parts/disclosure";
import { goToLooks } from "./closer-looks/go-to-looks";
import { bestPlace } from "./findings/best-place";
import { goToFact } from "./site-facts/go-to-fact";
import type { StoryProps } from "./view-props";

/** On the sample visit: things to try, each done by its own button, in any order or not at all. */
export function SampleGuide(props: StoryProps) {
  const { visit } = props;
  if (visit.files.length !== 1 || visit.files[0].name !== SAMPLE_LOG) return null;
  return (
    <Disclosure summary={SAMPLE_GUIDE.title}>
      <p>{SAMPLE_GUIDE.about}</p>
      <ol className="lessons">
        {LESSONS.map((lesson) => (
          <li key={lesson}>
            <button type="button" onClick={() => begin(lesson, props)}>
              {SAMPLE_GUIDE.lessons[lesson].button}
            </button>
            <p>{SAMPLE_GUIDE.lessons[lesson].says}</p>
          </li>
        ))}
      </ol>
    </Disclosure>
  );
}

function begin(lesson: Lesson, { visit, dispatch }: StoryProps): void {
  const show = (finding: FindingKind) => {
    const places = findingOf(visit.analysis.outcomes, finding)?.places ?? [];
    dispatch({ do: "select", selection: { finding, span: null } });
    if (places.length > 0) dispatch({ do: "show-on-trace", span: bestPlace(places) });
  };
  if (lesson === "tank") goToLooks(dispatch, "tank-charge");
  else if (lesson === "precharge") goToFact(dispatch, "precharge");
  else if (lesson === "what-if") dispatch({ do: "open-sheet", sheet: "what-if" });
  else show(lesson);
}
