import { FINDINGS_WORDS } from "../../../shared/wording/story";
import type { PageProps } from "../view-props";
import { foundSoFar } from "./story-lines";

/** The place of the story while it is worked out: what will stand there, and what was found so far in a line each. */
export function StoryToCome({ state, preferences }: PageProps) {
  const titles = state.visit.stage === "working-out" ? foundSoFar(state.visit.found, preferences.units) : [];
  return (
    <div className="story">
      <h2>{FINDINGS_WORDS.waiting}</h2>
      <p className="soft">{FINDINGS_WORDS.willStand}</p>
      {titles.length === 0 ? null : (
        <>
          <h3 id="found-so-far">{FINDINGS_WORDS.soFar}</h3>
          <ul aria-labelledby="found-so-far" className="found-so-far">
            {titles.map((title) => (
              <li key={title}>{title}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
