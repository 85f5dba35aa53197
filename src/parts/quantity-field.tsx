import { type KeyboardEvent, type ReactNode, useEffect, useId, useRef, useState } from "react";

type Props = {
  readonly label: string;
  /** Stands beside the label: a way to an explanation. */
  readonly aside?: ReactNode;
  readonly value: string;
  /** Where the value is found or how it is written, always in sight. */
  readonly hint: string;
  readonly example: string;
  /** What a text would be taken for, as it stands or as it is being typed. */
  readonly judge: (text: string) => Judged;
  readonly onCommit: (text: string) => void;
  readonly fieldId?: string;
};

/** What is wrong with a value (null where nothing is), and how it was read: in the reader's own units, or what is used instead. */
export type Judged = { readonly problem: string | null; readonly reading: string | null };

/**
 * A field for a value as a person writes it. Typing changes nothing outside; leaving the field or Enter does, Escape takes back what
 * was typed. How it would be read is said while one types; what is wrong with it only after a pause, lest a half-typed unit is called an error.
 */
export function QuantityField({ label, aside = null, value, hint, example, judge, onCommit, fieldId }: Props) {
  const ownId = useId();
  const id = fieldId ?? ownId;
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  const hasPaused = usePaused(typed, PAUSE_MS);
  const judged = judge(typed);
  const problem = typed === value || hasPaused ? judged.problem : null;
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
        {problem ?? (judged.problem === null ? judged.reading : null) ?? ""}
      </p>
    </div>
  );
}

/** Longer than between two keys, shorter than until one looks up. */
const PAUSE_MS = 900;

/** Whether a text has stood unchanged for so long. */
function usePaused(text: string, pause: number): boolean {
  const [stood, setStood] = useState(text);
  useEffect(() => {
    const timer = setTimeout(() => setStood(text), pause);
    return () => clearTimeout(timer);
  }, [text, pause]);
  return stood === text;
}
