import { useMemo } from "react";
import { notMet } from "../../../analysis/document/acceptance-part";
import { type Checklist, withEntry } from "../../../shared/findings/checklist";
import { cautionWords } from "../../../shared/wording/caution";
import { sayDone } from "../../../shared/wording/step";
import { NEXT_VISIT_WORDS } from "../../../shared/wording/story";
import { NoteField } from "../../parts/note-field";
import { TermNote } from "../../parts/term-note";
import { UndoButtons } from "../undo-buttons";
import type { StoryProps } from "../view-props";
import { Cautions } from "./cautions";
import { StepEntry } from "./step-entry";
import { FOR_EVERY_STEP, stepLines } from "./step-lines";
import { WorkOutEffects } from "./work-out-effects";
import "./next-visit.css";

/** What to look at, measure, change and bring, in the order of the work; ticked, noted and read off on site. */
export function NextVisit(props: StoryProps) {
  const { visit, state, preferences, dispatch } = props;
  const { checklist } = state;
  const { advice } = visit.analysis;
  const { acceptance } = visit.document;
  const steps = useMemo(
    () => stepLines(advice, checklist, preferences.units, notMet(acceptance)),
    [advice, checklist, preferences.units, acceptance],
  );
  const keep = (next: Checklist) => dispatch({ do: "note-checklist", checklist: next });
  return (
    <section className="chapter" aria-labelledby="next-visit">
      <h2 id="next-visit">{NEXT_VISIT_WORDS.title}</h2>
      {steps.length === 0 ? (
        <p>{NEXT_VISIT_WORDS.nothing}</p>
      ) : (
        <>
          <Cautions title={NEXT_VISIT_WORDS.everyStep} cautions={FOR_EVERY_STEP.map(cautionWords)} />
          <p role="status">
            {sayDone(steps.filter((step) => step.done).length, steps.length)}.{" "}
            {steps.some((step) => step.amounts.length > 1) && <TermNote id="common-practice">{NEXT_VISIT_WORDS.whyTwoAmounts}</TermNote>}
          </p>
        </>
      )}
      <WorkOutEffects key={visit.outline.duration} advice={advice} commands={props.commands} />
      <UndoButtons state={state} commands={props.commands} />
      <ol className="step-list">
        {steps.map((step) => (
          <StepEntry key={step.id} step={step} onEntry={(entry) => keep(withEntry(checklist, entry))} {...props} />
        ))}
      </ol>
      <NoteField label={NEXT_VISIT_WORDS.notes} value={checklist.notes} onChange={(notes) => keep({ ...checklist, notes })} />
    </section>
  );
}
