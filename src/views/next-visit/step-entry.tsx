import { useId } from "react";
import type { ChecklistEntry } from "../../../shared/findings/checklist";
import { NEXT_VISIT_WORDS } from "../../../shared/wording/story";
import { Disclosure } from "../../parts/disclosure";
import { NoteField } from "../../parts/note-field";
import { EnterFact } from "../site-facts/enter-fact";
import type { StoryProps } from "../view-props";
import { Cautions } from "./cautions";
import type { StepLine } from "./step-lines";

type Props = StoryProps & { readonly step: StepLine; readonly onEntry: (entry: ChecklistEntry) => void };

/** What one should find, set or bring; further numbers that led there stand with the calculation. */
const MOST_AMOUNTS = 2;

/** One step: its cautions first, then what to do, by how much and what to expect; why, and what it costs to be wrong, open under it. */
export function StepEntry({ step, onEntry, ...page }: Props) {
  const id = useId();
  const { words } = step;
  const change = (part: Partial<ChecklistEntry>) => onEntry({ step: step.id, done: step.done, note: step.note, ...part });
  const inSight = step.amounts.slice(0, MOST_AMOUNTS).filter(({ isNow }) => !(isNow && step.isChange));
  // Which of two amounts to trust is said beside them.
  const trust = words.trust === null ? null : <p>{words.trust}</p>;
  return (
    <li className="step" data-done={step.done}>
      <h3 className="step-head">
        <label className="step-tick">
          <input
            type="checkbox"
            checked={step.done}
            aria-describedby={`${id}-does`}
            onChange={(event) => change({ done: event.target.checked })}
          />
          <span>
            {step.title}
            {step.done ? <span className="step-done"> {NEXT_VISIT_WORDS.done}</span> : null}
          </span>
          <span className="step-kind">{step.kind}</span>
        </label>
      </h3>
      <Cautions title={NEXT_VISIT_WORDS.beforeYouTouch} cautions={step.cautions} again={step.again} />
      <p id={`${id}-does`} className="step-does">
        {words.does}
      </p>
      <Amounts amounts={inSight} />
      {inSight.length > 1 && trust}
      {words.expect === null ? null : (
        <p>
          <span className="soft">{NEXT_VISIT_WORDS.expect}</span> {words.expect}
        </p>
      )}
      <Disclosure summary={step.amounts.length === 0 ? NEXT_VISIT_WORDS.why : NEXT_VISIT_WORDS.worked}>
        <p>
          <span className="soft">{NEXT_VISIT_WORDS.because}</span> {words.because}
        </p>
        {inSight.length < 2 && trust}
        <p>
          <span className="soft">{NEXT_VISIT_WORDS.ifWrong}</span> {words.ifWrong}
        </p>
        {step.amounts.map(({ text, calculation }) => (
          <p key={text}>
            <strong>{text}</strong>
            <br />
            {calculation}
          </p>
        ))}
      </Disclosure>
      <div className="step-site">
        {step.reading === null ? null : <EnterFact name={step.reading} at={`step-${step.id}`} {...page} />}
        <Disclosure summary={NEXT_VISIT_WORDS.note} open={step.note !== ""}>
          <NoteField label={NEXT_VISIT_WORDS.noteOn(step.title)} value={step.note} onChange={(note) => change({ note })} />
        </Disclosure>
      </div>
    </li>
  );
}

function Amounts({ amounts }: { readonly amounts: StepLine["amounts"] }) {
  if (amounts.length === 0) return null;
  return (
    <ul className="step-amounts">
      {amounts.map(({ text }) => (
        <li key={text}>
          <strong>{text}</strong>
        </li>
      ))}
    </ul>
  );
}
