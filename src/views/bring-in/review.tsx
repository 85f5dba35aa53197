import type { ImportChoices } from "../../../analysis/import/import-log";
import { REVIEW_WORDS } from "../../../shared/wording/bring-in";
import type { ReadRecord } from "../../state/visit-state";
import type { PageProps } from "../view-props";
import { hasChoices } from "./choices";
import { ColumnList } from "./column-list";
import { FileHead } from "./file-head";
import { FilePicker } from "./file-picker";
import { QuestionList } from "./question-list";
import { ReadingNotes, RecordClock, RowsLeftOut, sayRecord } from "./record-summary";
import { ZoneField } from "./zone-field";
import "./bring-in.css";

type Props = PageProps & { readonly read: ReadRecord };

/**
 * How the files were understood, with every column and question open to change. Lies over the page as a sheet and stays there while the
 * files are read again, so that each change can be seen at once.
 */
export function Review({ read, state, preferences, commands }: Props) {
  const { locale } = preferences.units;
  const { visit } = state;
  const choices = visit.stage === "reading" ? visit.choices : read.choices;
  const change = (next: ImportChoices) => commands.readAgain(next);
  const questions = read.outline.questions;
  return (
    <div className="review">
      <p role="status" className="review-state">
        {visit.stage === "reading" || visit.stage === "working-out" ? REVIEW_WORDS.readingAgain : ""}
      </p>
      <p>
        {sayRecord(read.outline, preferences.units)} {REVIEW_WORDS.canBeChanged}
      </p>
      {questions.length === 0 ? null : (
        <section aria-labelledby="review-questions">
          <h3 id="review-questions">{REVIEW_WORDS.onlyYou}</h3>
          <QuestionList questions={questions} choices={choices} locale={locale} onChoices={change} />
        </section>
      )}
      {read.layouts.map((layout) => (
        <section key={layout.file} className="review-file" aria-label={layout.file}>
          <h3>
            {REVIEW_WORDS.columnsOf} <bdi>{layout.file}</bdi>
          </h3>
          <ColumnList layout={layout} choices={choices} locale={locale} onChoices={change} />
        </section>
      ))}
      <section aria-labelledby="review-clock">
        <h3 id="review-clock">{REVIEW_WORDS.clock}</h3>
        <RecordClock read={read} locale={locale} />
        {read.outline.clock.kind === "absolute" ? <ZoneField zone={read.outline.clock.zone} choices={choices} onChoices={change} /> : null}
      </section>
      <section aria-labelledby="review-rows">
        <h3 id="review-rows">{REVIEW_WORDS.rows}</h3>
        <RowsLeftOut outline={read.outline} locale={locale} />
      </section>
      <section aria-labelledby="review-notes">
        <h3 id="review-notes">{REVIEW_WORDS.noticed}</h3>
        <ReadingNotes outline={read.outline} faults={read.outline.faults} locale={locale} />
      </section>
      {read.layouts.map((layout) => (
        <section key={layout.file} aria-label={REVIEW_WORDS.linesOfFile(layout.file)}>
          <h3>
            {REVIEW_WORDS.linesOf} <bdi>{layout.file}</bdi>
          </h3>
          <FileHead layout={layout} locale={locale} />
        </section>
      ))}
      {hasChoices(choices) ? (
        <p className="button-row">
          <button type="button" onClick={() => change({ ...choices, answers: {}, columns: [] })}>
            {REVIEW_WORDS.takeAllBack}
          </button>
        </p>
      ) : null}
      <FilePicker onFiles={(files) => commands.bringIn(files)} compact />
    </div>
  );
}
