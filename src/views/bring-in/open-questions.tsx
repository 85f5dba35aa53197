import type { StoryProps } from "../view-props";

/** On top of the story: what the files left open and what was assumed. */
export function OpenQuestions({ visit, state, dispatch }: StoryProps) {
  if (state.visit.stage !== "asking") return null;
  return (
    <section className="open-questions" aria-label="Open questions">
      <p>{visit.outline.questions.length} things these files do not say. The likeliest answer is assumed.</p>
      <button type="button" onClick={() => dispatch({ do: "open-sheet", sheet: "bring-in" })}>
        Answer them
      </button>
    </section>
  );
}
