import { useEffect, useId, useState } from "react";
import type { ImportChoices } from "../../../analysis/import/import-log";
import type { ImportQuestion } from "../../../shared/record/import-question";
import { QUESTION_WORDS } from "../../../shared/wording/bring-in";
import { sayQuestion } from "../../../shared/wording/import-question";
import { sayOption, writtenAnswerExample } from "../../../shared/wording/question-option";
import { answer } from "./choices";

type Props = {
  readonly questions: readonly ImportQuestion[];
  readonly choices: ImportChoices;
  readonly onChoices: (choices: ImportChoices) => void;
  readonly locale: string | null;
};

/** What only a person can know, each with what is assumed meanwhile and what follows from each answer. */
export function QuestionList({ questions, choices, onChoices, locale }: Props) {
  return questions.map((question) => (
    <Question
      key={question.id}
      question={question}
      given={Object.hasOwn(choices.answers, question.id) ? choices.answers[question.id] : null}
      locale={locale}
      onAnswer={(value) => onChoices(answer(choices, question.id, value))}
    />
  ));
}

/** From here on options without a meaning stand beside each other. */
const MANY = 4;

type QuestionProps = {
  readonly question: ImportQuestion;
  /** The answer given; null while the likeliest is assumed. */
  readonly given: string | null;
  readonly locale: string | null;
  readonly onAnswer: (value: string) => void;
};

function Question({ question, given, locale, onAnswer }: QuestionProps) {
  const { text, meaning } = sayQuestion(question.asks, locale);
  const name = useId();
  const standing = given ?? question.assumed;
  const example = writtenAnswerExample(question.id);
  return (
    <fieldset className="question" data-answered={given !== null}>
      <legend>
        <bdi>{text}</bdi>
      </legend>
      <p className="field-hint">
        {given === null ? QUESTION_WORDS.assumedUntil : QUESTION_WORDS.yourAnswer} <bdi>{sayOption(question.id, standing, locale)}</bdi>
      </p>
      <div className="question-options" data-many={question.options.length > MANY && meaning.length === 0}>
        {question.options.map((option, i) => (
          <label key={option} className="question-option">
            {/* A radio that is checked already fires no change; a click confirms what was assumed. */}
            <input
              type="radio"
              name={name}
              value={option}
              checked={standing === option}
              onChange={() => onAnswer(option)}
              onClick={() => given === null && standing === option && onAnswer(option)}
            />
            <span>
              <bdi>{sayOption(question.id, option, locale)}</bdi>
              {(meaning[i] ?? "") === "" ? null : <span className="question-meaning">{meaning[i]}</span>}
            </span>
          </label>
        ))}
      </div>
      {example === null ? null : (
        <WrittenAnswer
          id={`${name}-written`}
          example={example}
          value={question.options.includes(standing) ? "" : standing}
          onAnswer={onAnswer}
        />
      )}
      {given === null ? null : (
        <button type="button" className="button-quiet" onClick={() => onAnswer("")}>
          {QUESTION_WORDS.takeBack}
        </button>
      )}
    </fieldset>
  );
}

type WrittenProps = { readonly id: string; readonly example: string; readonly value: string; readonly onAnswer: (value: string) => void };

/** Another answer than those offered, taken on Enter or on leaving the field. */
function WrittenAnswer({ id, example, value, onAnswer }: WrittenProps) {
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  const commit = () => {
    if (typed.trim() !== "" && typed.trim() !== value) onAnswer(typed);
  };
  return (
    <div className="question-option question-written">
      <label htmlFor={id}>{QUESTION_WORDS.orWrite}</label>
      <input
        id={id}
        type="text"
        spellCheck={false}
        placeholder={example}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => event.key === "Enter" && commit()}
      />
    </div>
  );
}
