import { type KeyboardEvent, type ReactNode, useEffect, useId, useRef, useState } from "react";

type Props = {
  readonly label: string;
  /** Stands beside the label: a way to an explanation. */
  readonly aside?: ReactNode;
  readonly value: string;
  /** Where the value is found or how it is written, always in sight. */
  readonly hint: string;
  readonly example: string;
  /** What is wrong with the value as it stands; null where nothing is. */
  readonly problem: string | null;
  /** The value in the units the person reads in, or what is used instead; null where there is nothing to add. */
  readonly reading: string | null;
  readonly onCommit: (text: string) => void;
  readonly fieldId?: string;
};

/**
 * A field for a value as a person writes it. Typing changes nothing outside; leaving the field or Enter does, Escape takes back what
 * was typed. A half-typed unit is never reported as an error.
 */
export function QuantityField({ label, aside = null, value, hint, example, problem, reading, onCommit, fieldId }: Props) {
  const ownId = useId();
  const id = fieldId ?? ownId;
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  const taken = useRef<string | null>(null);
  const commit = () => {
    taken.current = typed;
    if (typed !== value) onCommit(typed);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === "Enter") commit();
    // What has just been taken over is no longer half typed, even where the page has not caught up.
    if (event.key === "Escape" && typed !== value && typed !== taken.current) {
      event.stopPropagation();
      setTyped(value);
    }
  };
  return (
    <div className="field" data-problem={problem !== null}>
      <div className="field-label">
        <label htmlFor={id}>{label}</label>
        {aside}
      </div>
      <input
        id={id}
        type="text"
        autoComplete="off"
        spellCheck={false}
        placeholder={example}
        value={typed}
        aria-invalid={problem !== null}
        aria-describedby={`${id}-hint ${id}-state`}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
      <p id={`${id}-hint`} className="field-hint">
        {hint}
      </p>
      <p id={`${id}-state`} className="field-state" aria-live="polite">
        {problem ?? reading ?? ""}
      </p>
    </div>
  );
}
