import { QUESTION_WORDS } from "../../../shared/wording/bring-in";
import { sayQuestion } from "../../../shared/wording/import-question";
import { sayOption } from "../../../shared/wording/question-option";
import type { StoryProps } from "../view-props";
import { openQuestions } from "./choices";
import "./bring-in.css";

/** On top of the story: what the files left open, and what was assumed meanwhile. */
export function OpenQuestions({ visit, state, dispatch, preferences }: StoryProps) {
  const { locale } = preferences.units;
  const open = openQuestions(visit.outline.questions, visit.choices);
  if (state.visit.stage !== "asking" || open.length === 0) return null;
  return (
    <section className="open-questions" aria-labelledby="open-questions">
      <h2 id="open-questions">{QUESTION_WORDS.open(open.length)}</h2>
      <ul>
        {open.map((question) => (
          <li key={question.id}>
            <bdi>{sayQuestion(question.asks, locale).text}</bdi>{" "}
            <span className="soft">
              {QUESTION_WORDS.assumed} <bdi>{sayOption(question.id, question.assumed, locale)}</bdi>.
            </span>
          </li>
        ))}
      </ul>
      <p className="button-row">
        <button type="button" onClick={() => dispatch({ do: "open-sheet", sheet: "bring-in" })}>
          {QUESTION_WORDS.answerThem}
        </button>
        <button type="button" onClick={() => dispatch({ do: "settle-questions" })}>
          {QUESTION_WORDS.leave}
        </button>
      </p>
    </section>
  );
}
