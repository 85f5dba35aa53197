import { useState } from "react";
import { CHANNEL_ROLES } from "../../../shared/record/channel-role";
import { COLUMN_WORDS, CORRECTIONS_WORDS } from "../../../shared/wording/bring-in";
import { sayRole } from "../../../shared/wording/channel-role";
import { fixedOptions, sayOption, writtenAnswerExample } from "../../../shared/wording/question-option";
import type { StoredCorrection } from "../../storage/database";
import { pointOf, withoutPoint, withPoint } from "../../storage/read-corrections";
import { unitChoices } from "./unit-choices";

type Props = {
  readonly one: StoredCorrection;
  /** Counted as they are said: columns first, then answers. */
  readonly at: number;
  /** In words. */
  readonly point: string;
  readonly onChange: (after: StoredCorrection | null) => void;
};

/** One thing that is remembered: in words, to change to another value and to forget. */
export function CorrectionPoint({ one, at, point, onChange }: Props) {
  const [isOpen, setOpen] = useState(false);
  return (
    <li>
      <bdi>{point}</bdi>{" "}
      <button
        type="button"
        className="button-quiet"
        aria-expanded={isOpen}
        aria-label={CORRECTIONS_WORDS.changeThis(point)}
        onClick={() => setOpen(!isOpen)}
      >
        {isOpen ? CORRECTIONS_WORDS.done : CORRECTIONS_WORDS.change}
      </button>{" "}
      <button
        type="button"
        className="button-quiet"
        aria-label={CORRECTIONS_WORDS.forgetThis(point)}
        onClick={() => onChange(withoutPoint(one, at))}
      >
        {CORRECTIONS_WORDS.forget}
      </button>
      {isOpen ? <OtherValue one={one} at={at} onChange={onChange} /> : null}
    </li>
  );
}

function OtherValue({ one, at, onChange }: Omit<Props, "point">) {
  const point = pointOf(one, at);
  if (point === null) return null;
  if (point.kind === "answer")
    return <OtherAnswer id={point.id} value={point.answer} onValue={(answer) => onChange(withPoint(one, at, { ...point, answer }))} />;
  const { heading, role, unit } = point.column;
  const known = CHANNEL_ROLES.find((name) => name === role) ?? "other";
  const units = unitChoices({ role: known, unit, unitOptions: [] });
  const set = (column: typeof point.column) => onChange(withPoint(one, at, { kind: "column", column }));
  return (
    <div className="column-controls">
      <select
        aria-label={COLUMN_WORDS.standsFor(heading)}
        value={known}
        onChange={(event) => set({ heading, role: event.target.value, unit: null })}
      >
        {CHANNEL_ROLES.map((name) => (
          <option key={name} value={name}>
            {sayRole(name)}
          </option>
        ))}
      </select>
      {units.length === 0 ? null : (
        <select
          aria-label={COLUMN_WORDS.unitOf(heading)}
          value={unit ?? ""}
          onChange={(event) => set({ heading, role, unit: event.target.value || null })}
        >
          <option value="">{COLUMN_WORDS.unitNotKnown}</option>
          {units.map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      )}
    </div>
  );
}

type AnswerProps = { readonly id: string; readonly value: string; readonly onValue: (value: string) => void };

/** An answer from its list, or written where the question has none. */
function OtherAnswer({ id, value, onValue }: AnswerProps) {
  const options = fixedOptions(id);
  const [typed, setTyped] = useState(value);
  const label = CORRECTIONS_WORDS.otherAnswer;
  if (options.length > 0)
    return (
      <select aria-label={label} value={value} onChange={(event) => onValue(event.target.value)}>
        {[...new Set([value, ...options])].map((option) => (
          <option key={option} value={option}>
            {sayOption(id, option, null)}
          </option>
        ))}
      </select>
    );
  const commit = () => {
    if (typed.trim() !== "" && typed.trim() !== value) onValue(typed.trim());
  };
  return (
    <input
      type="text"
      aria-label={label}
      spellCheck={false}
      placeholder={writtenAnswerExample(id) ?? ""}
      value={typed}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={commit}
      onKeyDown={(event) => event.key === "Enter" && commit()}
    />
  );
}
